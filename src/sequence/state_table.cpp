// SPDX-License-Identifier: GPL-3.0-or-later
#include "state_table.h"

#include <utility>

#include <tinwright/base/contract.h>

#include "bits.h"

namespace tinwright::search {

StateTable::StateTable(FoldOracle& oracle, const Joins& joins, Meter& meter)
    : oracle_(oracle), joins_(joins), meter_(meter) {}

const std::vector<FoldMove>* StateTable::moves(BendMask formed) {
    if (const auto known = moves_.find(formed); known != moves_.end()) return known->second;
    if (!meter_.take()) return nullptr;
    const std::vector<FoldMove>& moves = oracle_.moves(formed);
    check(formed, moves);
    moves_.emplace(formed, &moves);
    meter_.countState(moves.size());
    return &moves;
}

void StateTable::check(BendMask formed, const std::vector<FoldMove>& moves) {
    const FoldMove* last = nullptr;
    for (const FoldMove& move : moves) {
        TINWRIGHT_REQUIRE(move.bends != 0 && within(move.bends, all() & ~formed), "a move forms unformed bends");
        TINWRIGHT_REQUIRE(!last || std::pair(last->bends, last->hold) < std::pair(move.bends, move.hold),
                          "moves are listed in ascending (bends, hold)");
        TINWRIGHT_REQUIRE(joins_.joinable(move.bends), "one step forms bends of one line");
        saw_undecided_ = saw_undecided_ || move.answer == FoldAnswer::kUndecided;
        last = &move;
    }
}

StepCost StateTable::cost(BendMask formed, Standing before, const FoldMove& move) {
    const StepCost cost = oracle_.cost(formed, before, move);
    forEachBend(move.bends, [&](std::size_t b) {
        TINWRIGHT_REQUIRE(cost.time_ms >= oracle_.leastTime_ms(idAt<BendId>(b)), "no step takes less than leastTime_ms");
        TINWRIGHT_REQUIRE(cost.pieces >= oracle_.leastPieces(idAt<BendId>(b)), "no step takes less than leastPieces");
    });
    return cost;
}

ForbiddenStroke StateTable::why(BendMask formed, BendMask bends, std::uint8_t hold) {
    const ForbiddenStroke why = oracle_.why(formed, bends, hold);
    TINWRIGHT_REQUIRE(why.holdsIn(formed) && (why.mask & (bends | why.bends)) == 0, "what forbids a stroke holds where it is asked, and says nothing of its own bends");
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
