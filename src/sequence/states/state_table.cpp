// SPDX-License-Identifier: GPL-3.0-or-later
#include "states/state_table.h"

#include <utility>

#include <tinwright/base/contract.h>

#include "states/bits.h"

namespace tinwright::search {

StateTable::StateTable(FoldOracle& oracle, const CoFoldable& co_foldable, WorkBudget& budget)
    : oracle_(oracle), co_foldable_(co_foldable), budget_(budget) {}

const std::vector<FoldMove>* StateTable::moves(BendMask formed) {
    const std::vector<FoldMove>* list = listed(formed);
    if (list == nullptr || !complete_.insert(formed).second) return list;
    for (std::size_t i = 0; i < list->size(); ++i) static_cast<void>(answered(formed, i));
    return list;
}

const std::vector<FoldMove>* StateTable::listed(BendMask formed) {
    if (const auto known = moves_.find(formed); known != moves_.end()) return known->second;
    budget_.oracleHolds(oracle_.heldBytes());
    if (!budget_.take()) return nullptr;
    const std::vector<FoldMove>& moves = oracle_.listed(formed);
    check(formed, moves);
    moves_.emplace(formed, &moves);
    budget_.countState(moves.size());
    return &moves;
}

const FoldMove& StateTable::answered(BendMask formed, std::size_t index) {
    const FoldMove& move = oracle_.answered(formed, index);
    saw_undecided_ = saw_undecided_ || move.answer == FoldAnswer::kUndecided;
    return move;
}

bool StateTable::answersQuickly(BendMask formed, std::size_t index) {
    if (!oracle_.answersQuickly(formed, index)) return false;
    static_cast<void>(answered(formed, index));  // what was undecided is seen to
    return true;
}

void StateTable::check(BendMask formed, const std::vector<FoldMove>& moves) const {
    const FoldMove* last = nullptr;
    for (const FoldMove& move : moves) {
        TINWRIGHT_REQUIRE(move.bends != 0 && within(move.bends, all() & ~formed), "a move forms unformed bends");
        TINWRIGHT_REQUIRE(!last || std::pair(last->bends, last->hold) < std::pair(move.bends, move.hold),
                          "moves are listed in ascending (bends, hold)");
        TINWRIGHT_REQUIRE(co_foldable_.mayFoldTogether(move.bends), "one step forms bends of one line");
        last = &move;
    }
}

std::vector<StepCost> StateTable::costs(BendMask formed, MachineState before, const FoldMove& move,
                                        std::int64_t most_ms) {
    std::vector<StepCost> costs = oracle_.costs(formed, before, move, most_ms);
    for (const StepCost& cost : costs) {
        forEachBend(move.bends, [&](std::size_t b) {
            TINWRIGHT_REQUIRE(cost.time_ms >= oracle_.timeLowerBound_ms(idAt<BendId>(b)),
                              "no step takes less than leastTime_ms");
            TINWRIGHT_REQUIRE(cost.pieces >= oracle_.piecesLowerBound(idAt<BendId>(b)),
                              "no step takes less than leastPieces");
        });
    }
    return costs;
}

ForbiddenStroke StateTable::why(BendMask formed, BendMask bends, std::uint8_t hold) {
    const ForbiddenStroke why = oracle_.why(formed, bends, hold);
    TINWRIGHT_REQUIRE(why.holdsIn(formed) && (why.mask & (bends | why.bends)) == 0,
                      "what forbids a stroke holds where it is asked, and says nothing of its own bends");
    TINWRIGHT_REQUIRE(why.means(bends) && (why.any_company || why.hold == hold), "what forbids a stroke means it");
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
