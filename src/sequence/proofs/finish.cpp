// SPDX-License-Identifier: GPL-3.0-or-later
#include "proofs/finish.h"

#include <tinwright/base/contract.h>

namespace tinwright::search {

FinishQuestion::FinishQuestion(FoldOracle& oracle, const CoFoldable& co_foldable, std::uint64_t max_states)
    : budget_(options_),
      co_foldable_(co_foldable),
      table_(oracle, co_foldable, budget_),
      backward_(table_),
      reach_(table_, backward_, Reach::With::kUndecided) {
    budget_.allow(max_states);
}

std::vector<CandidateStroke> FinishQuestion::order() {
    std::vector<CandidateStroke> steps;
    BendMask formed = co_foldable_.start;
    while (formed != co_foldable_.all) {
        const CandidateStroke* next = nullptr;
        const std::vector<CandidateStroke>& listed = *table_.listed(formed);
        for (std::size_t i = 0; i < listed.size() && next == nullptr; ++i) {
            if (reach_.known(formed | listed[i].bends) != true) continue;
            const CandidateStroke& candidate = table_.answered(formed, i);
            if (candidate.answer != StrokeAnswer::kImpossible) next = &candidate;
        }
        TINWRIGHT_REQUIRE(next != nullptr, "a state that finishes has a step towards it");
        steps.push_back(*next);
        formed |= next->bends;
    }
    return steps;
}

std::optional<std::vector<ForbiddenStroke>> FinishQuestion::forbiddenStrokes() const {
    const NoGoods& no_goods = reach_.noGoods();
    const std::optional<std::uint32_t> root = no_goods.caught(co_foldable_.start);
    if (!root || !no_goods.isProven(*root)) return std::nullopt;
    std::vector<ForbiddenStroke> forbidden_strokes;
    for (const std::uint32_t forbidden : no_goods.forbiddenUnder(*root))
        forbidden_strokes.push_back(no_goods.forbiddenStrokes()[forbidden]);
    return forbidden_strokes;
}

}  // namespace tinwright::search
