// SPDX-License-Identifier: GPL-3.0-or-later
#include "shop/stroke_prices.h"

#include <algorithm>
#include <utility>

#include <tinwright/geometry/box.h>

#include "shop/stations.h"

namespace tinwright {

StepCost StrokePrices::cost(MachineState before, AnsweredStroke& stroke) {
    return finished(choose(before, stroke, kNever_ms), stroke);
}

std::vector<StepCost> StrokePrices::costs(MachineState before, AnsweredStroke& stroke, std::int64_t most_ms) {
    const Choice best = choose(before, stroke, most_ms);
    std::vector<StepCost> costs;
    if (best.cost.time_ms <= most_ms) costs.push_back(finished(best, stroke));
    if (before != kNothingSetUp && best.setup == states_.setupIn(before))
        return costs;  // what stands can be changed when it does not do
    for (const SetupId setup : shared_) {
        if (setup == best.setup || setup == stroke.setup) continue;
        const std::optional<Choice> other = keptChoice(before, stroke, setup, most_ms);
        if (other && other->cost.time_ms <= most_ms) costs.push_back(finished(*other, stroke));
    }
    return costs;
}

const StrokeResult& StrokePrices::made(AnsweredStroke& stroke, MachineState after) {
    const SetupId setup = states_.setupIn(after);
    return setup == stroke.setup ? stroke.fresh : kept(stroke, setup).result;
}

Handling StrokePrices::handling(MachineState before, AnsweredStroke& stroke) {
    lay(stroke);
    return states_.handling(before, stroke.pose_before, drawnFaceUp(stroke));
}

bool StrokePrices::share(const std::vector<MachineState>& after) {
    constexpr std::size_t kMostAdded = 4;
    const std::size_t before = shared_.size();
    for (const MachineState state : after) {
        const SetupId setup = states_.setupIn(state);
        const bool known = std::find(shared_.begin(), shared_.end(), setup) != shared_.end();
        if (!known && shared_.size() < before + kMostAdded) shared_.push_back(setup);
    }
    if (habits_.has_stations) shareStations(after);
    return shared_.size() > before;
}

/// Between stations there is room for the part to be laid beside the tools of the next.
void StrokePrices::shareStations(const std::vector<MachineState>& after) {
    std::vector<Setup> setups;
    for (auto state = after.rbegin(); state != after.rend(); ++state)
        setups.push_back(states_.setup(states_.setupIn(*state)));  // those of the first order come first
    const double part_mm = boxOf(part_.blank.outline).sizes().norm();
    for (const Setup& stations : stationsOf(*brake_, setups, micronCeil(part_mm))) {
        const SetupId setup = states_.idOf(stations);
        if (std::find(shared_.begin(), shared_.end(), setup) == shared_.end()) shared_.push_back(setup);
    }
}

std::vector<Setup> StrokePrices::shared() const {
    std::vector<Setup> setups;
    for (const SetupId setup : shared_) setups.push_back(states_.setup(setup));
    return setups;
}

void StrokePrices::share(const std::vector<Setup>& setups) {
    for (const Setup& setup : setups) shared_.push_back(states_.idOf(setup));
}

void StrokePrices::lay(AnsweredStroke& stroke) {
    if (stroke.pose_before != 0) return;
    stroke.pose_before = states_.idOf(engine_.machineFromBase(stroke.formed, stroke.stroke, false));
    stroke.pose_after = states_.idOf(engine_.machineFromBase(stroke.formed, stroke.stroke, true));
}

StrokePrices::Choice StrokePrices::choose(MachineState before, AnsweredStroke& stroke, std::int64_t most_ms) {
    lay(stroke);
    const Choice fresh = freshChoice(before, stroke);
    const SetupId standing = states_.setupIn(before);
    if (before == kNothingSetUp || standing == fresh.setup) return fresh;
    const std::optional<Choice> as_it_stands = keptChoice(before, stroke, standing, most_ms);
    const auto key = [](const Choice& choice) { return std::pair(choice.cost.time_ms, choice.cost.pieces); };
    return as_it_stands && key(*as_it_stands) < key(fresh) ? *as_it_stands : fresh;
}

StrokePrices::Choice StrokePrices::freshChoice(MachineState before, AnsweredStroke& stroke) {
    return {&stroke.fresh, stroke.setup, &stroke.clearance_um, price(before, stroke, stroke.fresh, stroke.setup)};
}

/// Nothing when the set-up does not do, is tight where the string of fewest pieces is not, or takes more than that
/// anyway.
std::optional<StrokePrices::Choice> StrokePrices::keptChoice(MachineState before, AnsweredStroke& stroke, SetupId setup,
                                                             std::int64_t most_ms) {
    if (priceLowerBound_ms(before, stroke, setup) > most_ms) return std::nullopt;
    Kept& as_it_stands = kept(stroke, setup);
    if (as_it_stands.result.answer != StrokeAnswer::kPossible) return std::nullopt;
    return Choice{&as_it_stands.result, setup, &as_it_stands.clearance_um,
                  price(before, stroke, as_it_stands.result, setup)};
}

/// Without asking whether it does, and how part and bars come out.
std::int64_t StrokePrices::priceLowerBound_ms(MachineState before, AnsweredStroke& stroke, SetupId setup) {
    const Handling how = states_.handling(before, stroke.pose_before, drawnFaceUp(stroke));
    return times_.fold_ms + hemTime_ms(stroke) + gaugeTime_ms(stroke) + (how.turned ? times_.turn_ms : 0) +
           (how.flip ? times_.flip_ms : 0) +
           static_cast<std::int64_t>(states_.handled(states_.setupIn(before), setup)) * times_.piece_ms;
}

/// Hems are closed with the parent in front: a part that was held by it is turned round for that.
std::int64_t StrokePrices::hemTime_ms(const AnsweredStroke& stroke) const {
    if (!part_.bend(stroke.stroke.first()).hem) return 0;
    return times_.hem_ms + (stroke.stroke.hold == Side::kParent ? times_.turn_ms : 0);
}

/// Where the sheet is set by a back gauge: from the flat sheet's edge where there is one to be had (common
/// practice: from an unbent edge).
std::int64_t StrokePrices::gaugeTime_ms(AnsweredStroke& stroke) {
    if (stroke.gauge_ms >= 0) return stroke.gauge_ms;
    stroke.gauge_ms = times_.gauge_ms;
    if (habits_.is_gauged && stroke.fresh.answer == StrokeAnswer::kPossible) {
        const std::optional<GaugeStop> stop = engine_.gauge(stroke.formed, stroke.stroke, stroke.fresh).stop;
        stroke.gauge_ms += stop ? std::min(stop->bends_between * times_.gauge_formed_ms, times_.gauge_sight_ms)
                                : times_.gauge_sight_ms;
    }
    return stroke.gauge_ms;
}

/// What is gauged is pushed against the stops, the other side stays in the hands.
int StrokePrices::largerBehind(AnsweredStroke& stroke) {
    if (stroke.larger_behind < 0)
        stroke.larger_behind = habits_.is_gauged && engine_.holdsLargerSide(stroke.formed, stroke.stroke) ? 1 : 0;
    return stroke.larger_behind;
}

StepCost StrokePrices::finished(const Choice& choice, const AnsweredStroke& stroke) {
    StepCost cost = choice.cost;
    std::int64_t& clearance_um = *choice.clearance_um;
    if (clearance_um < 0)
        clearance_um = micronFloor(engine_.clearance(stroke.formed, stroke.stroke, *choice.result).gap_mm);
    cost.clearance_um = clearance_um;
    cost.after = states_.idOf(choice.setup, stroke.pose_after, drawnFaceUp(stroke));
    return cost;
}

StepCost StrokePrices::price(MachineState before, AnsweredStroke& stroke, const StrokeResult& result, SetupId setup) {
    StepCost cost;
    cost.time_ms = priceLowerBound_ms(before, stroke, setup);
    if (states_.setup(states_.setupIn(before)).face != result.setup.face) cost.time_ms += times_.leaf_face_ms;
    if (!result.plain_ways) cost.time_ms += times_.way_out_ms;
    cost.larger_behind = largerBehind(stroke);
    cost.pieces = static_cast<std::int32_t>(result.setup.pieces.size());
    cost.tight = result.tight;
    return cost;
}

StrokePrices::Kept& StrokePrices::kept(const AnsweredStroke& stroke, SetupId setup) {
    const auto [entry, is_new] = kept_.try_emplace(pairKey(stroke.handle, setup));
    if (is_new)
        entry->second.result =
            engine_.checkWithSetup(stroke.formed, stroke.stroke, states_.setup(setup), stroke.fresh.tight);
    return entry->second;
}

}  // namespace tinwright
