// SPDX-License-Identifier: GPL-3.0-or-later
#include "remedies/suit_trials.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>

#include "plan/setup_plans.h"

namespace tinwright {

namespace {

// Depths and angles change with every dimension; who meets whom does not.
bool sameReasons(const std::vector<Reason>& a, const std::vector<Reason>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const Reason& one, const Reason& other) {
        return std::tie(one.formed, one.stroke, one.code, one.panel, one.body) ==
               std::tie(other.formed, other.stroke, other.code, other.panel, other.body);
    });
}

// Widths of bars that are wanted are told in halves of a millimetre: what a person cuts.
constexpr double kBarStep_mm = 0.5;

}  // namespace

Suitability suitabilityOf(const BrakeResult& result) {
    Suitability suitability;
    suitability.verdict = result.verdict;
    suitability.orders_feasible = result.orders_feasible;
    suitability.orders_total = result.orders_total;
    suitability.reasons = result.reasons;
    if (result.plans.empty()) return suitability;
    const Plan& best = result.plans.front();
    suitability.spoils = best.spoils;
    suitability.tight = best.tight;
    suitability.worst_clearance_mm = best.worst_clearance_mm;
    if (result.work.proven_best) suitability.cost_ms = best.cost_ms;
    suitability.least_cover = 1;
    for (const FoldStep& fold : best.folds) {
        suitability.bars += fold.tools.size();
        suitability.least_cover = std::min(suitability.least_cover, fold.covered_share);
    }
    return suitability;
}

Suitability planForSuit(const Part& part, const Shop& shop, const std::vector<BrakeInSetup>& setups, PlanOptions plan,
                        bool verdict_only, std::uint64_t& work) {
    plan.verdict_only = verdict_only;
    const auto planned = [&] {
        const BrakeResult result = planOverSetups(part, shop, setups, plan);
        work += planWork(result.work);
        return suitabilityOf(result);
    };
    const Suitability quick = planned();
    // One that was found quickly and spoils something, or is tight, does not tell that every other does.
    if (!verdict_only || !quick.works() || !(quick.spoils.any() || quick.tight)) return quick;
    plan.verdict_only = false;
    return planned();
}

std::uint64_t planWork(const SearchWork& work) { return work.fold_checks + work.shadows_cast + work.pairs_swept; }

SuitTrials::SuitTrials(const Part& part, const TweakedPart& tweaks, const Shop& shop, const BrakeInSetup& brake,
                       const SuitOptions& options)
    : tweaks_(tweaks),
      shop_(shop),
      brake_(brake),
      options_(options),
      as_drawn_(options.as_drawn ? *options.as_drawn : plan(part, brake)) {}

Suitability SuitTrials::plan(const Part& part, const BrakeInSetup& brake) {
    if (spent()) return {};
    ++count_;
    PlanOptions plan;
    plan.plans = 1;
    plan.time_limit_s = options_.time_limit_s;
    plan.max_states = options_.max_states;
    plan.formed = options_.formed;
    plan.robust = options_.robust;
    plan.material = options_.material;
    plan.explain = false;
    return planForSuit(part, shop_, {brake}, plan, options_.verdict_only, work_);
}

const Suitability& SuitTrials::at(std::size_t dimension, int step) {
    const auto [entry, is_new] = known_.try_emplace({dimension, step});
    if (!is_new) return entry->second;
    const Result<Part> part = tweaks_.with({{dimension, value_mm(dimension, step)}});
    if (part) {
        entry->second = plan(part.value(), brake_);
    } else {
        entry->second.verdict = Verdict::kInfeasible;
    }
    return entry->second;
}

std::vector<std::pair<std::size_t, int>> SuitTrials::otherReasons() const {
    std::vector<std::pair<std::size_t, int>> result;
    for (const auto& [version, suitability] : known_) {
        const bool within = std::abs(version.second) <= steps(version.first, version.second > 0 ? 1 : -1, 1.0);
        const bool dead_end = suitability.verdict == Verdict::kInfeasible && !suitability.reasons.empty();
        if (within && dead_end && !sameReasons(suitability.reasons, as_drawn_.reasons)) result.push_back(version);
    }
    return result;
}

std::optional<std::vector<BarMeasure>> SuitTrials::measuresAt(std::size_t dimension, int step) {
    const Result<Part> part = tweaks_.with({{dimension, value_mm(dimension, step)}});
    if (!part) return std::nullopt;
    return barMeasures(part.value(), brake_.inside_radius_mm());
}

double SuitTrials::value_mm(std::size_t dimension, int step) const {
    const double drawn = drawn_mm(dimension);
    if (step == 0) return drawn;
    const double cells = drawn / options_.step_mm;
    const double first = step > 0 ? std::floor(cells + 1e-6) : std::ceil(cells - 1e-6);
    // A multiple of the step as people write it: 79.6, not 79.60000000000001.
    return std::round((first + step) * options_.step_mm * 1e6) / 1e6;
}

double SuitTrials::stepsFor(std::size_t dimension, int way, double change_mm) const {
    const double first_mm = std::abs(value_mm(dimension, way) - drawn_mm(dimension));
    return (change_mm * way - first_mm) / options_.step_mm + 1;
}

int SuitTrials::steps(std::size_t dimension, int way, double times_reach) const {
    const Tweakable& what = tweaks_.dimensions[dimension];
    const double reach = times_reach * (way > 0 ? what.most_mm - what.value_mm : what.value_mm - what.least_mm);
    return std::max(0, static_cast<int>(std::floor(stepsFor(dimension, way, way * reach) + 1e-6)));
}

int SuitTrials::gridSteps(double mm) const { return static_cast<int>(std::lround(mm / options_.step_mm)); }

std::optional<WantedBar> SuitTrials::wantedBar(const Part& part) {
    const BrakeInSetup& brake = brake_;
    std::vector<WantedBar> tried;
    for (const BarMeasure& measure : barMeasures(part, brake.inside_radius_mm())) {
        if (measure.kind != BarMeasure::Kind::kBetweenWalls ||
            !suitedWidths(brake, shop_.limits, measure.mm, measure.mm).empty())
            continue;
        for (const ToolId like : brake.tools(ToolRow::kUpper)) {
            const Bar* const own = brake->bar(like);
            const double room = 2 * endRoom_mm(*brake, like, brake.inside_radius_mm()) +
                                std::max(shop_.limits.plus_side_mm, 2 * shop_.limits.clearance_mm);
            WantedBar bar;
            bar.width_mm = std::floor((measure.mm - room) / kBarStep_mm) * kBarStep_mm;
            bar.like = brake->tool(like).id;
            bar.clamp_depth_mm = own != nullptr ? own->clamp_depth_mm : 0;
            bar.between_mm = measure.mm;
            const bool known = std::any_of(tried.begin(), tried.end(), [&](const WantedBar& other) {
                return other.width_mm == bar.width_mm && other.clamp_depth_mm == bar.clamp_depth_mm;
            });
            if (known || bar.width_mm <= 0) continue;
            tried.push_back(bar);
            bar.result = plan(part, brake.with(withPiece(*brake, like, "wanted", bar.width_mm)));
            if (bar.result.level() > as_drawn_.level()) return bar;
        }
    }
    return std::nullopt;
}

}  // namespace tinwright
