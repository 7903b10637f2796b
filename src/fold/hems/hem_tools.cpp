// SPDX-License-Identifier: GPL-3.0-or-later
#include "hems/hem_tools.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/hemming.h>
#include <tinwright/brake/tooling/die_profile.h>

#include "exits/planar_escape.h"

namespace tinwright {

namespace {

constexpr double kOut_mm = PlanarEscape::kOut_mm;
constexpr double kPastReturn_mm = 1.0;  // the return lies this far within the flats
constexpr double kBehindFold_mm = 1.0;  // and the fold this far before their end
constexpr double kOverReturn_mm = 0.5;  // the flats open so much more than it stands

}  // namespace

std::optional<HemTools> HemTools::of(const Machine& machine, const Placed& placed, const HemSize& hem,
                                     ClosingTrouble& why) {
    HemTools tools(machine, placed.face);
    if (!tools.takeFlats(placed, hem, why)) return std::nullopt;
    if (!machine.hasLowerRow()) {
        tools.takeClamp(hem);
        return tools;
    }
    return tools.takeJaw(placed, hem, why) ? std::optional(tools) : std::nullopt;
}

// What all pieces that bear on the hem have in common.
bool HemTools::takeFlats(const Placed& placed, const HemSize& hem, ClosingTrouble& why) {
    const BrakeInSetup& brake = machine_->brake();
    front_mm_ = -std::numeric_limits<double>::infinity();
    double back_mm = std::numeric_limits<double>::infinity();
    double opens_mm = back_mm;
    for (const StandingTool& standing : placed.bars) {
        const Bar* bar = brake->bar(standing.tool);
        const Die* die = brake->die(standing.tool);
        if (bar == nullptr && die == nullptr) continue;
        const HemFlats flats = bar != nullptr ? clampFlats(brake, *bar) : (die->jaw ? jawFlats(*die) : HemFlats{});
        front_mm_ = std::max(front_mm_, flats.front_mm);
        back_mm = std::min(back_mm, flats.front_mm + flats.depth_mm);
        opens_mm = std::min(opens_mm, flats.opens_mm);
    }
    if (!machine_->hasLowerRow()) opens_mm += machine_->thickness_mm();  // from where it lies on one sheet
    inserted_mm_ = hem.depth_mm + kPastReturn_mm;
    shift_y_mm_ = hem.crest_mm - front_mm_ - inserted_mm_;
    if (!(back_mm - front_mm_ >= inserted_mm_ + kBehindFold_mm)) {
        why.why = ClosingTrouble::Why::kTooDeep;
        why.has_mm = std::max(0.0, back_mm - front_mm_);
        why.needs_mm = hem.depth_mm;
        return false;
    }
    if (opens_mm < hem.stands_mm + kOverReturn_mm) {
        why.why = ClosingTrouble::Why::kStandsHigh;
        why.has_mm = opens_mm;
        why.needs_mm = hem.stands_mm;
        return false;
    }
    return true;
}

void HemTools::takeClamp(const HemSize& hem) {
    loose_ = machine_->exits().loose();
    upper_ = {hem.height_mm - machine_->thickness_mm(), loose_ ? kOut_mm : machine_->exits().opening_mm};
}

// z = 0 is the floor of the jaw. Closed the die's upper half has sunk, and the punch stands in the corner of its V.
bool HemTools::takeJaw(const Placed& placed, const HemSize& hem, ClosingTrouble& why) {
    const BrakeInSetup& brake = machine_->brake();
    const Die* die = nullptr;
    double punch_mm = 0;
    for (const StandingTool& standing : placed.bars) {
        const Die* under = brake->die(standing.tool);
        if (under == nullptr) punch_mm = brake->tool(standing.tool).height_mm;
        if (under == nullptr) continue;
        const bool has_jaw = under->jaw && under->jaw->hem_thickness_mm >= machine_->thickness_mm() - 1e-9;
        if (!has_jaw || (die != nullptr && die->jaw != under->jaw)) {
            why.why = has_jaw ? ClosingTrouble::Why::kJawsDiffer : ClosingTrouble::Why::kNoJaw;
            why.die = standing.tool;
            return false;
        }
        die = under;
    }
    const double sinks_mm = die->jaw->opening_mm - hem.height_mm;
    const double floor_to_top_mm = die->height_mm - die->jaw->floor_mm;
    const double thickness_mm = machine_->thickness_mm();  // bodies of punches and ram are told with the tip so high
    roof_ = {-sinks_mm, 0};
    bed_mm_ = floor_to_top_mm;
    upper_.closed_mm = floor_to_top_mm - sinks_mm - veeDepth_mm(die->vee) - thickness_mm;
    upper_.open_mm = machine_->openHeight_mm() - punch_mm - die->jaw->floor_mm - thickness_mm;
    const double travel_mm = upper_.open_mm - upper_.closed_mm;
    if (sinks_mm >= 0 && travel_mm >= 0 && travel_mm <= brake->press().stroke_mm) return true;
    why.why = sinks_mm < 0 ? ClosingTrouble::Why::kJawLow : ClosingTrouble::Why::kRamReach;
    why.has_mm = die->jaw->opening_mm;
    why.needs_mm = hem.height_mm;
    return false;
}

ToolMove HemTools::above(std::size_t body, const Lift& lift) const {
    const Vec2 closed(shift_y_mm_, lift.closed_mm);
    const Vec2 open(shift_y_mm_, lift.open_mm);
    ToolMove move{body, {{closed, open}}};
    if (!loose_) move.sweeps.emplace_back(open, open + Vec2(kOut_mm, 0));
    return move;
}

ToolMove HemTools::below(std::size_t body, double shift_mm, bool up) const {
    const Vec2 at(shift_y_mm_, shift_mm);
    return {body, {{at, at + (up ? Vec2(0, -kOut_mm) : Vec2(kOut_mm, 0))}}};
}

std::vector<ToolMove> HemTools::longMoves(bool up) const {
    std::vector<ToolMove> moves;
    for (const std::size_t body : machine_->under(face_)) moves.push_back(below(body, bed_mm_, up));
    for (const std::size_t body : machine_->over(face_)) moves.push_back(above(body, upper_));
    return moves;
}

std::vector<ToolMove> HemTools::high(std::size_t family, bool up) const {
    const ToolFamily& pieces = machine_->families()[family];
    if (pieces.row == ToolRow::kUpper) return {above(pieces.high, upper_)};
    return {above(static_cast<std::size_t>(pieces.jaw_roof), roof_),
            below(static_cast<std::size_t>(pieces.jaw_floor), 0, up)};
}

std::vector<ToolMove> HemTools::low(std::size_t family) const {
    const ToolFamily& pieces = machine_->families()[family];
    if (pieces.low < 0) return {};
    return {above(static_cast<std::size_t>(pieces.low), upper_)};
}

ToolMove HemTools::frames() const { return below(static_cast<std::size_t>(machine_->frames()), 0, false); }

}  // namespace tinwright
