// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/sequence/plan/split_plan.h>

#include <algorithm>

#include <tinwright/base/contract.h>
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/plan/plan_time.h>
#include <tinwright/forming/checks/check.h>
#include <tinwright/sequence/search/search.h>

#include "plan/gauged_lines.h"
#include "plan/pinned_oracle.h"
#include "shop/split_oracle.h"

namespace tinwright {

namespace {

using Assignment = std::vector<std::size_t>;  // by bend, 0 or 1

SearchOptions searchFor(const PlanOptions& options, std::size_t orders) {
    SearchOptions search;
    search.plans = orders;
    search.time_limit_s = options.time_limit_s;
    search.max_states = options.max_states;
    search.max_bytes = options.max_bytes;
    search.max_counted_states = 0;
    return search;
}

// How bends are held does not hang on the brake.
SearchResult searchAsPinned(SplitOracle& oracle, const PlanOptions& options, std::size_t orders) {
    PinnedOracle pinned(oracle, oracle.on(0).engine(), options.pins);
    FoldOracle& asked = options.pins.ofOrder() ? static_cast<FoldOracle&>(pinned) : oracle;
    return searchOrders(asked, options.formed, searchFor(options, orders));
}

// Bends that were formed before are taken to have been made on the first brake.
Assignment assignmentOf(const Part& part, const SplitOracle& oracle, const Order& order) {
    Assignment assignment(part.bends.size(), 0);
    for (const OrderStep& step : order.steps) {
        for (std::size_t i = 0; i < part.bends.size(); ++i) {
            if (contains(step.stroke.bends, idAt<BendId>(i))) assignment[i] = oracle.brakeOf(step.cost.after);
        }
    }
    return assignment;
}

BendMask madeOn(const Assignment& assignment, std::size_t brake) {
    BendMask mask = 0;
    for (std::size_t i = 0; i < assignment.size(); ++i)
        mask |= assignment[i] == brake ? bit(idAt<BendId>(i)) : BendMask{0};
    return mask;
}

FoldStep stepOf(SplitOracle& oracle, const OrderStep& step, GaugedLines& lines) {
    const std::size_t brake = oracle.brakeOf(step.cost.after);
    ShopOracle& own = oracle.on(brake);
    const CandidateStroke& candidate = oracle.candidateOn(brake, step.stroke);
    FoldStep fold = own.describe(candidate, oracle.standingOn(brake, step.before),
                                 oracle.standingOn(brake, step.cost.after), lines.lines_mm());
    lines.take(fold);
    return fold;
}

SplitPlan planOf(SplitOracle& oracle, const Order& order, std::array<std::size_t, 2> brakes,
                 const std::array<BrakeInSetup, 2>& on, const Assignment& assignment, const Times& times,
                 GaugedLines lines) {
    SplitPlan split;
    split.brakes = brakes;
    split.on = on;
    split.plan.rank = 1;
    split.plan.tight = order.tight;
    split.plan.spoils = order.spoils;
    split.plan.worst_clearance_mm = toMm(order.clearance_um);
    for (const std::size_t of : assignment) split.brake_of_bend.push_back(brakes[of]);
    for (const OrderStep& step : order.steps) {
        split.plan.folds.push_back(stepOf(oracle, step, lines));
        split.brake_of_fold.push_back(brakes[oracle.brakeOf(step.cost.after)]);
        const std::size_t count = split.brake_of_fold.size();
        if (count > 1 && split.brake_of_fold[count - 1] != split.brake_of_fold[count - 2]) ++split.times_carried;
    }
    std::vector<BrakeInSetup> by_fold;
    for (const std::size_t brake : split.brake_of_fold) by_fold.push_back(split.setupOf(brake));
    split.plan.cost_ms = planTime_ms(times, foldActions(by_fold, split.plan.folds));
    return split;
}

}  // namespace

std::optional<SplitPlan> planOnTwo(const Part& part, const Shop& shop, std::array<std::size_t, 2> brakes,
                                   const std::array<BrakeInSetup, 2>& on, const PlanOptions& options) {
    TINWRIGHT_REQUIRE(brakes[0] != brakes[1] && std::max(brakes[0], brakes[1]) < shop.brakes.size(),
                      "two brakes of the shop");
    constexpr std::size_t kOrdersTried = 4;
    SplitOracle either(part, shop, {{{on[0], ~BendMask{0}}, {on[1], ~BendMask{0}}}}, {}, options.material);
    const SearchResult free = searchAsPinned(either, options, kOrdersTried);
    std::vector<Assignment> tried;
    for (const Order& order : free.orders) {
        const Assignment assignment = assignmentOf(part, either, order);
        if (std::find(tried.begin(), tried.end(), assignment) != tried.end()) continue;
        tried.push_back(assignment);
        std::vector<double> radii;
        for (const std::size_t of : assignment) radii.push_back(on[of].inside_radius_mm());
        SplitOracle given(part, shop, {{{on[0], madeOn(assignment, 0)}, {on[1], madeOn(assignment, 1)}}}, radii,
                          options.material);
        const SearchResult found = searchAsPinned(given, options, 1);
        if (found.orders.empty()) continue;
        SplitPlan split =
            planOf(given, found.orders.front(), brakes, on, assignment, shop.times, GaugedLines(part, shop));
        split.plan.tight = split.plan.tight || split.plan.worst_clearance_mm < shop.limits.clearance_mm - 1e-3;
        split.proven_best = found.proven_best;
        for (std::size_t i = 0; i < on.size(); ++i)
            split.spoilt_anyway +=
                spoiltAnyway(part, options.material, shop, on[i], options.formed | madeOn(assignment, 1 - i));
        return split;
    }
    return std::nullopt;
}

}  // namespace tinwright
