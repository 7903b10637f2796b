// SPDX-License-Identifier: GPL-3.0-or-later
#include "shop/stroke_prices.h"

#include <algorithm>
#include <bit>
#include <tuple>
#include <utility>

#include <tinwright/geometry/box.h>

#include "shop/stations.h"

namespace tinwright {

StepCost StrokePrices::cost(MachineState before, AnsweredStroke& stroke) {
    return finished(choices(before, stroke, kNever_ms).best(), stroke);
}

std::vector<StepCost> StrokePrices::costs(MachineState before, AnsweredStroke& stroke, std::int64_t most_ms) {
    const Choices own = choices(before, stroke, most_ms);
    std::vector<StepCost> costs;
    const auto offer = [&](const Choice& choice) {
        if (choice.cost.time_ms <= most_ms) costs.push_back(finished(choice, stroke));
    };
    offer(own.best());
    const SetupId standing = states_.setupIn(before);
    const std::int64_t change_ms = static_cast<std::int64_t>(states_.handled(standing, stroke.setup)) * times_.piece_ms;
    const bool stays = own.as_it_stands && own.as_it_stands->cost.time_ms <= own.fresh.cost.time_ms - change_ms;
    // What stands can be changed when it does not do, for no more than now; unless another would spoil less, or want no
    // care.
    const bool is_clean = !own.best().cost.spoils.any() && !own.best().of->trouble->care.any();
    if (before != kNothingSetUp && (standing == stroke.setup || stays) && is_clean) return costs;
    if (own.as_it_stands) offer(own.keeps() ? own.fresh : *own.as_it_stands);
    const auto offerOther = [&](SetupId setup) {
        if (setup == standing || setup == stroke.setup) return;
        if (const std::optional<Choice> other = keptChoice(before, stroke, setup, most_ms)) offer(*other);
    };
    for (const SetupId setup : shared_) offerOther(setup);
    for (const SetupId setup : bySection(stroke)) {
        if (std::find(shared_.begin(), shared_.end(), setup) == shared_.end()) offerOther(setup);
    }
    return costs;
}

const std::vector<StrokePrices::SetupId>& StrokePrices::bySection(AnsweredStroke& stroke) {
    if (stroke.by_section) return *stroke.by_section;
    std::vector<SetupId>& setups = stroke.by_section.emplace();
    for (std::size_t section = 0; engine_.sectionCount() > 1 && section < engine_.sectionCount(); ++section) {
        if (engine_.isOfSection(stroke.fresh.setup, section)) continue;  // it is that of fewest pieces
        const StrokeResult result = engine_.checkWithSection(stroke.formed, stroke.stroke, section, stroke.fresh.tight);
        if (result.answer != StrokeAnswer::kPossible) continue;
        const SetupId setup = states_.idOf(result.setup);
        if (setup != stroke.setup) setups.push_back(setup);
    }
    return setups;
}

const StrokeResult& StrokePrices::made(AnsweredStroke& stroke, MachineState after) {
    const SetupId setup = states_.setupIn(after);
    return setup == stroke.setup ? stroke.fresh : kept(stroke, setup).result;
}

const StrokeTrouble& StrokePrices::troubleOf(AnsweredStroke& stroke, MachineState after) {
    const SetupId setup = states_.setupIn(after);
    OfSetup& of = setup == stroke.setup ? stroke.of : kept(stroke, setup).of;
    if (!of.trouble) of.trouble = findTrouble(stroke, made(stroke, after));
    return *of.trouble;
}

Spoils StrokePrices::spoilsLowerBound(const Stroke& stroke) {
    // How a stroke of several bends holds the others is settled by the state.
    if (std::has_single_bit(stroke.bends)) return troubles_.least(stroke.first(), stroke.hold);
    Spoils spoils;
    for (const BendId bend : bendsIn(stroke.bends)) spoils += troubles_.least(bend);
    return spoils;
}

StrokeTrouble StrokePrices::findTrouble(const AnsweredStroke& stroke, const StrokeResult& result) {
    return troubles_.of(engine_.describeHold(stroke.formed, stroke.stroke, result), stroke.formed);
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

StrokePrices::Choices StrokePrices::choices(MachineState before, AnsweredStroke& stroke, std::int64_t most_ms) {
    lay(stroke);
    Choices own{freshChoice(before, stroke), std::nullopt};
    const SetupId standing = states_.setupIn(before);
    if (before != kNothingSetUp && standing != stroke.setup)
        own.as_it_stands = keptChoice(before, stroke, standing, most_ms);
    return own;
}

bool StrokePrices::Choices::keeps() const {
    const auto key = [](const Choice& choice) {
        return std::tuple(choice.cost.spoils, choice.cost.time_ms, choice.cost.pieces);
    };
    return as_it_stands && key(*as_it_stands) < key(fresh);
}

StrokePrices::Choice StrokePrices::freshChoice(MachineState before, AnsweredStroke& stroke) {
    return {&stroke.fresh, stroke.setup, &stroke.of, price(before, stroke, stroke.fresh, stroke.setup, stroke.of)};
}

/// Nothing when the set-up does not do, is tight where the string of fewest pieces is not, or takes more than that
/// anyway.
std::optional<StrokePrices::Choice> StrokePrices::keptChoice(MachineState before, AnsweredStroke& stroke, SetupId setup,
                                                             std::int64_t most_ms) {
    if (priceLowerBound_ms(before, stroke, setup) > most_ms) return std::nullopt;
    Kept& as_it_stands = kept(stroke, setup);
    if (as_it_stands.result.answer != StrokeAnswer::kPossible) return std::nullopt;
    return Choice{&as_it_stands.result, setup, &as_it_stands.of,
                  price(before, stroke, as_it_stands.result, setup, as_it_stands.of)};
}

/// Without asking whether it does, what it is gauged by there, and how part and bars come out.
std::int64_t StrokePrices::priceLowerBound_ms(MachineState before, AnsweredStroke& stroke, SetupId setup) {
    return foldTime_ms(times_, actionsBut(before, stroke, setup));
}

/// But for what hangs on where the part lies with the set-up. Hems are closed with the parent in front: a part that was
/// held by it is turned round for that.
FoldActions StrokePrices::actionsBut(MachineState before, AnsweredStroke& stroke, SetupId setup) {
    const Handling how = states_.handling(before, stroke.pose_before, drawnFaceUp(stroke));
    const SetupId standing = states_.setupIn(before);
    FoldActions actions;
    actions.pieces = states_.handled(standing, setup);
    actions.leaf_face = habits_.has_faces && states_.setup(standing).face != states_.setup(setup).face;
    actions.turned = how.turned;
    actions.flipped = how.flip;
    actions.closes_hem = part_.bend(stroke.stroke.first()).hem.has_value();
    actions.turned_for_hem = actions.closes_hem && stroke.stroke.hold == Side::kParent;
    return actions;
}

GaugeWork StrokePrices::gaugeOf(const AnsweredStroke& stroke, const StrokeResult& result) {
    if (!habits_.is_gauged) return {};
    const GaugeChoice choice = engine_.gauge(stroke.formed, stroke.stroke, result);
    return gaugeWork(choice.stop, choice.trouble);
}

/// What is gauged is pushed against the stops, the other side stays in the hands.
int StrokePrices::largerBehind(AnsweredStroke& stroke) {
    if (stroke.larger_behind < 0)
        stroke.larger_behind = habits_.is_gauged && engine_.holdsLargerSide(stroke.formed, stroke.stroke) ? 1 : 0;
    return stroke.larger_behind;
}

StepCost StrokePrices::finished(const Choice& choice, const AnsweredStroke& stroke) {
    StepCost cost = choice.cost;
    std::int64_t& clearance_um = choice.of->clearance_um;
    if (clearance_um < 0)
        clearance_um = micronFloor(engine_.clearance(stroke.formed, stroke.stroke, *choice.result).gap_mm);
    cost.clearance_um = clearance_um;
    cost.after = states_.idOf(choice.setup, stroke.pose_after, drawnFaceUp(stroke));
    return cost;
}

StepCost StrokePrices::price(MachineState before, AnsweredStroke& stroke, const StrokeResult& result, SetupId setup,
                             OfSetup& of) {
    if (!of.gauge) of.gauge = gaugeOf(stroke, result);
    if (!of.trouble) of.trouble = findTrouble(stroke, result);
    FoldActions actions = actionsBut(before, stroke, setup);
    actions.gauge = *of.gauge;
    actions.special_way = !result.plain_ways;
    actions.packed = result.packing > 0;
    actions.care = of.trouble->care;
    StepCost cost;
    cost.spoils = of.trouble->spoils;
    cost.time_ms = foldTime_ms(times_, actions);
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
