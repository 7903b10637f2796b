// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan_reasons.h"

#include <algorithm>

#include <tinwright/sequence/explanation.h>

namespace tinwright {

namespace {

std::vector<Reason> told(LeafOracle& oracle, const std::vector<ForbiddenStroke>& facts) {
    std::vector<Reason> reasons;
    for (const ForbiddenStroke& fact : facts) {
        for (Reason& reason : oracle.engine().explain(fact)) reasons.push_back(std::move(reason));
    }
    // What no order can help is said first.
    std::stable_sort(reasons.begin(), reasons.end(),
                     [](const Reason& a, const Reason& b) { return noOrderHelps(a) > noOrderHelps(b); });
    return reasons;
}

}  // namespace

bool noOrderHelps(const Reason& reason) {
    return reason.code == "leaf-angle" || reason.code == "vee-angle" || reason.code == "no-tools";
}

std::vector<Cause> causesOf(LeafOracle& oracle, BendMask formed) {
    std::vector<Cause> causes;
    for (const CauseFacts& cause : explainNone(oracle, formed, ExplainOptions{}))
        causes.push_back({told(oracle, cause.facts)});
    return causes;
}

void addForcedOrders(LeafOracle& oracle, BendMask formed, const std::vector<Order>& orders, BrakeResult& result) {
    std::vector<std::vector<BendMask>> known;
    for (const Order& order : orders) {
        std::vector<BendMask>& steps = known.emplace_back();
        for (const OrderStep& step : order.steps) steps.push_back(step.move.bends);
    }
    const Precedences found = forcedPrecedences(oracle, formed, known, PrecedenceOptions{});
    result.forced_all_known = found.all_pairs;
    for (const Precedence& one : found.forced) {
        // Of the facts those that stop the first bend once the other is folded say it best.
        std::vector<ForbiddenStroke> facts = one.facts;
        std::erase_if(facts, [&](const ForbiddenStroke& fact) {
            return !contains(fact.bends, one.first) || !contains(fact.formed, one.then);
        });
        result.forced.push_back({one.first, one.then, told(oracle, facts)});
    }
}

}  // namespace tinwright
