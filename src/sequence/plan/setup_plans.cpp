// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/setup_plans.h"

#include <tuple>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>

namespace tinwright {

namespace {

std::string nameOf(const Vee& vee) { return fmt::format("V {:.4g}", vee.opening_mm); }

}  // namespace

void addWork(SearchWork& all, const SearchWork& more) {
    all.states += more.states;
    all.partial_orders += more.partial_orders;
    all.fold_checks += more.fold_checks;
    all.shadows_cast += more.shadows_cast;
    all.pairs_swept += more.pairs_swept;
}

namespace {

/// By verdict, then by what is spoilt.
bool isBetter(const BrakeResult& result, const BrakeResult& than) {
    if (result.verdict != than.verdict) return rankOf(result.verdict) > rankOf(than.verdict);
    const auto spoilt = [](const BrakeResult& of) { return of.spoilt_anyway + of.plans.front().spoils; };
    return result.verdict == Verdict::kWithTrouble && spoilt(result) < spoilt(than);
}

/// An order that was found quickly and spoils something does not tell that every other does.
BrakeResult planned(const Part& part, const Shop& shop, const BrakeInSetup& setup, PlanOptions options) {
    BrakeResult result = planOnBrake(part, shop, setup, options);
    if (!options.verdict_only || result.verdict != Verdict::kWithTrouble || !result.plans.front().spoils.any())
        return result;
    options.verdict_only = false;
    BrakeResult in_full = planOnBrake(part, shop, setup, options);
    addWork(in_full.work, result.work);
    return in_full;
}

}  // namespace

BrakeResult planOverSetups(const Part& part, const Shop& shop, const std::vector<BrakeInSetup>& setups,
                           const PlanOptions& options) {
    BrakeResult best = planned(part, shop, setups.front(), options);
    PlanOptions quick = options;
    quick.verdict_only = true;
    quick.tell_reasons = false;
    std::string lesser;  // Vs that do less, in the order in which they were tried
    for (std::size_t i = 1; i < setups.size() && best.verdict != Verdict::kFeasible; ++i) {
        BrakeResult other = planned(part, shop, setups[i], quick);
        SearchWork work = best.work;
        addWork(work, other.work);
        const bool is_better = isBetter(other, best);
        if (is_better && !(options.verdict_only && goes(other.verdict))) {
            other = planOnBrake(part, shop, setups[i], options);
            addWork(work, other.work);
        }
        const BrakeResult& less = is_better ? best : other;
        lesser += fmt::format("{}{}: {}", lesser.empty() ? "" : ", ", nameOf(*less.brake.vee()), toText(less.verdict));
        if (is_better) best = std::move(other);
        work.proven_best = best.work.proven_best;
        work.least_ms = best.work.least_ms;
        best.work = work;
    }
    if (!lesser.empty()) best.notes.push_back("other Vs were tried, " + lesser);
    return best;
}

TryResult tryOverSetups(const Part& part, const Shop& shop, const std::vector<BrakeInSetup>& setups,
                        const std::vector<std::vector<BendId>>& order, BendMask formed, const Pins& pins,
                        const Material* material) {
    std::optional<TryResult> best;
    for (const BrakeInSetup& brake : setups) {
        TryResult result = tryOrder(part, shop, brake, order, formed, pins, material);
        const auto key = [](const TryResult& of) {
            const Spoils spoilt = of.spoilt_anyway + of.plan.spoils;
            return std::tuple(rankOf(of.verdict), of.steps.size(), -spoilt.surely, -spoilt.maybe);
        };
        const bool is_better = !best || key(result) > key(*best);
        if (is_better) best = std::move(result);
        if (best->verdict == Verdict::kFeasible) break;
    }
    return *best;
}

}  // namespace tinwright
