// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/sequence/plan/planner.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include <fmt/format.h>

#include <tinwright/base/contract.h>
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/plan/plan_time.h>
#include <tinwright/forming/checks/check.h>
#include <tinwright/forming/metal/drawn_radius.h>
#include <tinwright/forming/metal/vee_choice.h>
#include <tinwright/sequence/search/search.h>

#include "plan/gauged_lines.h"
#include "plan/kind_models.h"
#include "plan/pinned_oracle.h"
#include "plan/plan_reasons.h"
#include "plan/setup_plans.h"
#include "proofs/any_order.h"
#include "shop/shop_oracle.h"

namespace tinwright {

namespace {

const char* const kHemModel =
    "; hems closed right after their fold, under the clamp or in a die's jaw, with the pieces that folded them; the "
    "sheet of a leaf brake packed up, and its setback with it, where a closed hem hangs under it";

const char* const kHoldingModel =
    "; a fold counts when it is shown to hold, by a bound, whatever sheet, cutting, bend lines and angles come out "
    "within the shop's tolerances: "
    "a fold that is not shown to may hold all the same";

FoldStep stepOf(ShopOracle& oracle, const OrderStep& step, GaugedLines& lines) {
    FoldStep fold = oracle.describe(step.stroke, step.before, step.cost.after, lines.lines_mm());
    lines.take(fold);
    return fold;
}

Plan planOf(ShopOracle& oracle, FoldOracle& asked, const Times& times, const BrakeInSetup& brake, const Order& order,
            int rank, GaugedLines lines) {
    Plan plan;
    plan.rank = rank;
    plan.tight = order.tight;
    plan.spoils = order.spoils;
    for (const OrderStep& step : order.steps) plan.folds.push_back(stepOf(oracle, step, lines));
    plan.cost_ms = planTime_ms(times, foldActions(brake, plan.folds));
    plan.worst_clearance_mm = toMm(order.clearance_um);
    if (!order.steps.empty()) plan.any_order = anyOrderRuns(asked, order.steps.front().formed, order);
    return plan;
}

std::string noteOfRadius(const Part& part, const BrakeInSetup& brake) {
    const std::vector<BendId> others = drawnOtherwise(part, brake.inside_radius_mm());
    if (others.empty()) return {};
    const Bend& bend = part.bend(others.front());
    return fmt::format(
        "{} gives an inside radius of {:.2f} mm; {} is drawn with {:.2f} mm: develop the blank for the radius that "
        "you will get",
        radiusGiver(brake), brake.inside_radius_mm(), bend.name, bend.inside_radius_mm);
}

// Where a fold was placed with room to spare, the bound proven for its clearance may still be less than what is wanted.
void tellTight(const Limits& limits, Plan& plan) {
    constexpr double kSame_mm = 1e-3;
    plan.tight = plan.tight || plan.worst_clearance_mm < limits.clearance_mm - kSame_mm;
}

Verdict verdictOf(const SearchResult& found, bool all_listed, const Spoils& anyway) {
    switch (found.end) {
        case SearchEnd::kFound: return verdictWith(found.orders.front().spoils + anyway);
        case SearchEnd::kProvenNone: return all_listed ? Verdict::kInfeasible : Verdict::kUndecided;
        case SearchEnd::kBudgetSpent:
        case SearchEnd::kUndecidedFolds: break;
    }
    return Verdict::kUndecided;
}

// How far the best order found may be from the best there is.
std::string gapNote(const SearchResult& found) {
    const auto best_ms = static_cast<double>(found.orders.front().time_ms);
    const auto least_ms = static_cast<double>(found.least_ms);
    return fmt::format(
        "best among the orders looked at before a limit was reached: it takes {:.0f} s, and with the set-ups weighed "
        "no "
        "order takes less than {:.0f} s ({:.0f} % less at most)",
        best_ms / 1000, least_ms / 1000, 100 * (best_ms - least_ms) / std::max(best_ms, 1.0));
}

SearchWork workOf(const SearchResult& found, ShopOracle& oracle) {
    const FoldEngine::Work folds = oracle.engine().work();
    return {found.proven_best, found.least_ms, found.states_opened, found.labels_opened,
            folds.checks,      folds.records,  folds.pairs};
}

void addNotes(BrakeResult& result, const SearchResult& found, ShopOracle& oracle) {
    if (found.out_of_time) result.notes.push_back("the time limit ended the search: another run may differ");
    if (found.out_of_memory) result.notes.push_back("the memory limit ended the search");
    if (found.end == SearchEnd::kFound && !found.proven_best && !found.orders.empty())
        result.notes.push_back(gapNote(found));
    if (found.end == SearchEnd::kBudgetSpent)
        result.notes.push_back("a limit was reached before it was known whether an order works");
    if (found.end == SearchEnd::kUndecidedFolds)
        result.notes.push_back("some folds are neither proven clear nor proven to hit");
    if (!oracle.answers().allListed())
        result.notes.push_back("a line has more than six bends: only runs of neighbours were tried in one stroke");
}

// The stroke with the side held that takes least, of those that are not pinned otherwise; else nothing, and why.
std::optional<OrderStep> tryStroke(ShopOracle& oracle, PinnedOracle& pinned, BendMask formed, MachineState before,
                                   TriedStep& tried) {
    std::optional<OrderStep> best;
    for (const Side hold : kBothSides) {
        const Stroke stroke{maskOf(tried.bends), hold};
        if (oracle.engine().conflictSetOfLine(formed, stroke)) {
            tried.reasons = oracle.engine().explain(formed, stroke);
            return std::nullopt;
        }
        if (!pinned.allows(formed, stroke)) continue;
        const CandidateStroke candidate = oracle.answers().asked(formed, stroke);
        tried.undecided = tried.undecided || candidate.answer == StrokeAnswer::kUndecided;
        if (candidate.answer != StrokeAnswer::kPossible) continue;
        const StepCost cost = oracle.cost(formed, before, candidate);
        const auto key = [](const StepCost& of) {
            return std::tuple(of.spoils, of.tight, of.time_ms, of.larger_behind, of.pieces);
        };
        if (!best || key(cost) < key(best->cost)) best = OrderStep{candidate, before, formed, cost};
    }
    tried.undecided = tried.undecided && !best;
    for (const Side hold : kBothSides) {
        const Stroke stroke{maskOf(tried.bends), hold};
        if (best) break;
        if (!pinned.allows(formed, stroke)) continue;
        for (Reason& reason : oracle.engine().explain(formed, stroke)) tried.reasons.push_back(std::move(reason));
    }
    return best;
}

// No order is shown to hold: whether one goes as drawn decides between undecided and infeasible.
void askAsDrawn(const Part& part, const Shop& shop, const BrakeInSetup& brake, PlanOptions options,
                BrakeResult& result) {
    options.robust = false;
    options.plans = 1;
    BrakeResult drawn = planOnBrake(part, shop, brake, options);
    result.verdict = drawn.verdict == Verdict::kInfeasible ? Verdict::kInfeasible : Verdict::kUndecided;
    if (goes(drawn.verdict)) {
        const std::string orders = drawn.orders_feasible.empty() ? ""
                                                                 : fmt::format(" in {} order{}", drawn.orders_feasible,
                                                                               drawn.orders_feasible == "1" ? "" : "s");
        result.notes.push_back("as drawn the part goes" + orders + (options.pins.any() ? " as pinned" : "") +
                               ", but no order is shown to hold over the tolerances");
        return;
    }
    result.causes = std::move(drawn.causes);
    result.reasons = std::move(drawn.reasons);
    for (std::string& note : drawn.notes) result.notes.push_back(std::move(note));
}

Brake pinnedBrake(const Brake& brake, const ToolPins& pins) {
    Brake left = withTools(brake, pins);
    TINWRIGHT_REQUIRE(!pins.any() || hasTools(left), "the pins leave the brake tools");
    return left;
}

}  // namespace

BrakeResult planOnBrake(const Part& part, const Shop& shop, std::size_t brake, const PlanOptions& options) {
    TINWRIGHT_REQUIRE(brake < shop.brakes.size(), "the brake is one of the shop's");
    const Brake& whole = shop.brakes[brake];
    const Brake left = pinnedBrake(whole, options.pins.tools);
    BrakeResult result = planOverSetups(part, shop, setupsFor(part, left), options);
    result.as_pinned = options.pins.ofOrder() || left.toolCount() != whole.toolCount();
    if (!result.as_pinned) return result;
    result.model += "; of orders, holds and tools only what keeps the pins";
    if (result.verdict != Verdict::kInfeasible) return result;
    PlanOptions free = options;
    free.pins = {};
    free.plans = 1;
    free.verdict_only = true;
    free.tell_reasons = false;
    const BrakeResult without = planOverSetups(part, shop, setupsFor(part, whole), free);
    result.without_pins = without.verdict;
    addWork(result.work, without.work);
    return result;
}

BrakeResult planOnBrake(const Part& part, const Shop& shop, const BrakeInSetup& brake, const PlanOptions& options) {
    ShopOracle oracle(part, shop, brake, options.robust ? Demand::kHolds : Demand::kPossible, {}, options.material);
    PinnedOracle pinned(oracle, oracle.engine(), options.pins);
    FoldOracle& asked = options.pins.ofOrder() ? static_cast<FoldOracle&>(pinned) : oracle;
    SearchOptions search;
    search.plans = options.plans;
    search.time_limit_s = options.time_limit_s;
    search.max_states = options.max_states;
    search.max_bytes = options.max_bytes;
    // More bends than this have either few ways, which are soon counted, or too many.
    constexpr std::size_t kCountedBends = 15;
    search.max_counted_states = part.bends.size() > kCountedBends ? options.max_states / 6 : options.max_states;
    search.verdict_only = options.verdict_only;
    search.find_deepest = options.tell_reasons;
    search.progress = options.progress;
    const SearchResult found = searchOrders(asked, options.formed, search);

    BrakeResult result;
    result.brake = brake;
    result.as_pinned = options.pins.ofOrder();
    result.spoilt_anyway = spoiltAnyway(part, options.material, shop, brake, options.formed);
    result.verdict = verdictOf(found, oracle.answers().allListed(), result.spoilt_anyway);
    result.orders_feasible = found.orders_feasible;
    result.orders_total = found.orders_total;
    result.model = modelOf(*brake);
    if (hasHems(part)) result.model += kHemModel;
    if (options.robust) result.model += kHoldingModel;
    result.only_holding = options.robust;
    for (std::size_t i = 0; i < found.orders.size(); ++i) {
        result.plans.push_back(planOf(oracle, asked, shop.times, brake, found.orders[i], static_cast<int>(i) + 1,
                                      GaugedLines(part, shop)));
        tellTight(shop.limits, result.plans.back());
    }
    // Whether a fold holds over the tolerances hangs on every bend: of that nothing short can be told.
    const bool explain = options.explain && !options.robust && !options.verdict_only;
    if (goes(result.verdict) && explain) addForcedOrders(oracle, options.formed, found.orders, result);
    if (result.verdict == Verdict::kInfeasible && explain)
        result.causes = causesOf(asked, oracle.engine(), options.formed);
    result.forced_all_known = result.forced_all_known && explain;
    if (!goes(result.verdict) && options.tell_reasons)
        result.reasons = reasonsAt(asked, oracle.engine(), found.deepest, options.pins.first);
    result.work = workOf(found, oracle);
    addNotes(result, found, oracle);
    if (options.robust && found.end == SearchEnd::kProvenNone) askAsDrawn(part, shop, brake, options, result);
    if (std::string note = noteOfRadius(part, brake); !note.empty()) result.notes.push_back(std::move(note));
    return result;
}

ConstraintProblem constraintsOn(const Part& part, const Shop& shop, const BrakeInSetup& brake, BendMask formed,
                                const Pins& pins, const Material* material) {
    ShopOracle oracle(part, shop, brake, Demand::kPossible, {}, material);
    PinnedOracle pinned(oracle, oracle.engine(), pins);
    FoldOracle& asked = pins.ofOrder() ? static_cast<FoldOracle&>(pinned) : oracle;
    SearchOptions search;  // as a plan is made: what set-ups are shared comes of it
    search.max_states = PlanOptions{}.max_states;
    search.max_counted_states = 0;
    static_cast<void>(searchOrders(asked, formed, search));
    return compileConstraints(asked, formed, ConstraintLimits{});
}

TryResult tryOrder(const Part& part, const Shop& shop, std::size_t brake, const std::vector<std::vector<BendId>>& order,
                   BendMask formed, const Pins& pins, const Material* material) {
    TINWRIGHT_REQUIRE(brake < shop.brakes.size(), "the brake is one of the shop's");
    return tryOverSetups(part, shop, setupsFor(part, pinnedBrake(shop.brakes[brake], pins.tools)), order, formed, pins,
                         material);
}

TryResult tryOrder(const Part& part, const Shop& shop, const BrakeInSetup& brake,
                   const std::vector<std::vector<BendId>>& order, BendMask formed, const Pins& pins,
                   const Material* material) {
    ShopOracle oracle(part, shop, brake, Demand::kPossible, {}, material);
    Pins holds;
    holds.holds = pins.holds;
    PinnedOracle pinned(oracle, oracle.engine(), holds);
    TryResult result;
    result.brake = brake;
    result.spoilt_anyway = spoiltAnyway(part, material, shop, brake, formed);
    GaugedLines lines(part, shop);
    MachineState machine_state = kNothingSetUp;
    for (const std::vector<BendId>& bends : order) {
        TriedStep& tried = result.steps.emplace_back();
        tried.bends = bends;
        const std::optional<OrderStep> step = tryStroke(oracle, pinned, formed, machine_state, tried);
        if (!step) {
            result.verdict = tried.undecided ? Verdict::kUndecided : Verdict::kInfeasible;
            return result;
        }
        tried.possible = true;
        tried.undecided = false;
        tried.step = stepOf(oracle, *step, lines);
        result.plan.tight = result.plan.tight || step->cost.tight;
        result.plan.spoils += step->cost.spoils;
        result.plan.folds.push_back(tried.step);
        result.plan.cost_ms = planTime_ms(shop.times, foldActions(brake, result.plan.folds));
        machine_state = step->cost.after;
        formed |= step->stroke.bends;
    }
    result.verdict = verdictWith(result.plan.spoils + result.spoilt_anyway);
    result.plan.rank = 1;
    for (const FoldStep& fold : result.plan.folds) {
        const bool first = &fold == &result.plan.folds.front();
        result.plan.worst_clearance_mm =
            first ? fold.clearance_mm : std::min(result.plan.worst_clearance_mm, fold.clearance_mm);
    }
    tellTight(shop.limits, result.plan);
    return result;
}

}  // namespace tinwright
