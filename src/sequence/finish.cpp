// SPDX-License-Identifier: GPL-3.0-or-later
#include "finish.h"

#include <tinwright/base/contract.h>

namespace tinwright::search {

FinishQuestion::FinishQuestion(FoldOracle& oracle, const Joins& joins, std::uint64_t max_states)
    : meter_(options_),
      joins_(joins),
      table_(oracle, joins, meter_),
      levels_(table_),
      reach_(table_, levels_, Reach::With::kUndecided) {
    meter_.allow(max_states);
}

std::vector<FoldMove> FinishQuestion::order() {
    std::vector<FoldMove> steps;
    BendMask formed = joins_.start;
    while (formed != joins_.all) {
        const FoldMove* next = nullptr;
        const std::vector<FoldMove>& listed = *table_.listed(formed);
        for (std::size_t i = 0; i < listed.size() && next == nullptr; ++i) {
            if (reach_.known(formed | listed[i].bends) != true) continue;
            const FoldMove& move = table_.answered(formed, i);
            if (move.answer != FoldAnswer::kImpossible) next = &move;
        }
        TINWRIGHT_REQUIRE(next != nullptr, "a state that finishes has a step towards it");
        steps.push_back(*next);
        formed |= next->bends;
    }
    return steps;
}

std::optional<std::vector<ForbiddenStroke>> FinishQuestion::facts() const {
    const Traps& traps = reach_.traps();
    const std::optional<std::uint32_t> root = traps.caught(joins_.start);
    if (!root || !traps.isProven(*root)) return std::nullopt;
    std::vector<ForbiddenStroke> facts;
    for (const std::uint32_t fact : traps.factsUnder(*root)) facts.push_back(traps.facts()[fact]);
    return facts;
}

}  // namespace tinwright::search
