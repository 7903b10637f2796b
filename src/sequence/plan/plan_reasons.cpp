// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/plan_reasons.h"

#include <algorithm>
#include <bit>

#include <tinwright/sequence/proofs/explanation.h>

namespace tinwright {

namespace {

std::vector<Reason> told(FoldEngine& engine, const std::vector<ForbiddenStroke>& forbidden_strokes) {
    std::vector<Reason> reasons;
    for (const ForbiddenStroke& forbidden : forbidden_strokes) {
        for (Reason& reason : engine.explain(forbidden)) reasons.push_back(std::move(reason));
    }
    // What no order can help is said first.
    std::stable_sort(reasons.begin(), reasons.end(),
                     [](const Reason& a, const Reason& b) { return noOrderHelps(a) > noOrderHelps(b); });
    return reasons;
}

}  // namespace

bool noOrderHelps(const Reason& reason) {
    return reason.code == ReasonCode::kLeafAngle || reason.code == ReasonCode::kLeafJams ||
           reason.code == ReasonCode::kVeeAngle || reason.code == ReasonCode::kNoTools;
}

std::vector<Cause> causesOf(FoldOracle& asked, FoldEngine& engine, BendMask formed) {
    std::vector<Cause> causes;
    for (const ConflictCause& cause : explainNone(asked, formed, ExplainOptions{}))
        causes.push_back({told(engine, cause.forbidden_strokes)});
    return causes;
}

std::vector<Reason> reasonsAt(FoldOracle& asked, FoldEngine& engine, BendMask formed,
                              const std::vector<BendMask>& first) {
    const auto next = std::find_if(first.begin(), first.end(), [&](BendMask bends) { return (bends & ~formed) != 0; });
    const BendMask pinned = next == first.end() ? 0 : *next;
    std::vector<Reason> reasons;
    const auto tell = [&](const Stroke& stroke) {
        for (Reason& reason : engine.explain(formed, stroke)) reasons.push_back(std::move(reason));
    };
    for (const CandidateStroke& candidate : asked.candidates(formed)) {
        if (candidate.answer == StrokeAnswer::kPossible) continue;
        if (std::has_single_bit(candidate.bends) || candidate.bends == pinned) tell(candidate);
    }
    // No stroke of the state at all: its bends cannot be pressed together.
    if (pinned != 0 && (pinned & formed) == 0 && engine.conflictSetOfLine(formed, {pinned, Side::kParent}))
        tell({pinned, Side::kParent});
    // What no order can help is said first.
    std::stable_partition(reasons.begin(), reasons.end(), noOrderHelps);
    return reasons;
}

void addForcedOrders(ShopOracle& oracle, BendMask formed, const std::vector<Order>& orders, BrakeResult& result) {
    std::vector<std::vector<BendMask>> known;
    for (const Order& order : orders) {
        std::vector<BendMask>& steps = known.emplace_back();
        for (const OrderStep& step : order.steps) steps.push_back(step.stroke.bends);
    }
    const Precedences found = forcedPrecedences(oracle, formed, known, PrecedenceOptions{});
    result.forced_all_known = found.all_pairs;
    for (const Precedence& one : found.forced) {
        // Of the facts those that stop the first bend once the other is folded say it best.
        std::vector<ForbiddenStroke> forbidden_strokes = one.forbidden_strokes;
        std::erase_if(forbidden_strokes, [&](const ForbiddenStroke& forbidden) {
            return !contains(forbidden.bends, one.first) || !contains(forbidden.formed, one.then);
        });
        result.forced.push_back({one.first, one.then, told(oracle.engine(), forbidden_strokes)});
    }
}

}  // namespace tinwright
