// SPDX-License-Identifier: GPL-3.0-or-later
#include "states/state_table.h"

#include <utility>

#include <tinwright/base/contract.h>

#include "states/bits.h"

namespace tinwright::search {

StateTable::StateTable(FoldOracle& oracle, const CoFoldable& co_foldable, WorkBudget& budget)
    : oracle_(oracle), co_foldable_(co_foldable), budget_(budget) {}

const std::vector<CandidateStroke>* StateTable::candidates(BendMask formed) {
    const std::vector<CandidateStroke>* list = listed(formed);
    if (list == nullptr || !complete_.insert(formed).second) return list;
    for (std::size_t i = 0; i < list->size(); ++i) static_cast<void>(answered(formed, i));
    return list;
}

const std::vector<CandidateStroke>* StateTable::listed(BendMask formed) {
    if (const auto known = candidates_.find(formed); known != candidates_.end()) return known->second;
    budget_.oracleHolds(oracle_.heldBytes());
    if (!budget_.take()) return nullptr;
    const std::vector<CandidateStroke>& candidates = oracle_.listed(formed);
    check(formed, candidates);
    candidates_.emplace(formed, &candidates);
    budget_.countState(candidates.size());
    return &candidates;
}

const CandidateStroke& StateTable::answered(BendMask formed, std::size_t index) {
    const CandidateStroke& candidate = oracle_.answered(formed, index);
    saw_undecided_ = saw_undecided_ || candidate.answer == StrokeAnswer::kUndecided;
    return candidate;
}

bool StateTable::answersQuickly(BendMask formed, std::size_t index) {
    if (!oracle_.answersQuickly(formed, index)) return false;
    static_cast<void>(answered(formed, index));  // what was undecided is seen to
    return true;
}

void StateTable::check(BendMask formed, const std::vector<CandidateStroke>& candidates) const {
    const CandidateStroke* last = nullptr;
    for (const CandidateStroke& candidate : candidates) {
        TINWRIGHT_REQUIRE(candidate.bends != 0 && within(candidate.bends, all() & ~formed),
                          "a stroke forms unformed bends");
        TINWRIGHT_REQUIRE(!last || *last < candidate, "strokes are listed in ascending (bends, hold)");
        TINWRIGHT_REQUIRE(co_foldable_.mayFoldTogether(candidate.bends), "one step forms bends of one line");
        last = &candidate;
    }
}

std::vector<StepCost> StateTable::costs(BendMask formed, MachineState before, const CandidateStroke& candidate,
                                        std::int64_t most_ms) {
    std::vector<StepCost> costs = oracle_.costs(formed, before, candidate, most_ms);
    for (const StepCost& cost : costs) {
        TINWRIGHT_REQUIRE(cost.spoils >= oracle_.spoilsLowerBound(candidate), "no step spoils less than its least");
        forEachBend(candidate.bends, [&](std::size_t b) {
            TINWRIGHT_REQUIRE(cost.time_ms >= oracle_.timeLowerBound_ms(idAt<BendId>(b)),
                              "no step takes less than leastTime_ms");
            TINWRIGHT_REQUIRE(cost.pieces >= oracle_.piecesLowerBound(idAt<BendId>(b)),
                              "no step takes less than leastPieces");
        });
    }
    return costs;
}

ForbiddenStroke StateTable::why(BendMask formed, const Stroke& stroke) {
    const ForbiddenStroke why = oracle_.why(formed, stroke);
    TINWRIGHT_REQUIRE(why.holdsIn(formed) && (why.mask & (stroke.bends | why.bends)) == 0,
                      "what forbids a stroke holds where it is asked, and says nothing of its own bends");
    TINWRIGHT_REQUIRE(why.means(stroke.bends) && (why.any_company || why.hold == stroke.hold),
                      "what forbids a stroke means it");
    return why;
}

std::vector<BendMask> StateTable::lines(BendMask formed) {
    std::vector<BendMask> lines = oracle_.lines(formed);
    BendMask seen = formed;
    for (const BendMask line : lines) {
        TINWRIGHT_REQUIRE(line != 0 && (line & seen) == 0, "the lines of a state do not overlap");
        seen |= line;
    }
    TINWRIGHT_REQUIRE(seen == all(), "the lines of a state are all unformed bends");
    return lines;
}

}  // namespace tinwright::search
