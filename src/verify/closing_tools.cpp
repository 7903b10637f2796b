// SPDX-License-Identifier: GPL-3.0-or-later
#include "closing_tools.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include <tinwright/brake/hemming.h>

#include "press_setting.h"

namespace tinwright::replay {

namespace {

constexpr double kFarOff_mm = 3000;
constexpr double kShortOfTop_mm = 1;   // the ram is not counted on to go up to the very end (src/fold/NOTES.md)

std::vector<ClosingTool> clampTools(const Brake& brake, const FoldStep& step, const Setting& setting, const HemClosing& told) {
    const double thickness_mm = setting.stroke.thickness_mm;
    const bool loose = brake.clamp == ClampKind::kLooseBars;
    const double closed = told.height_mm - thickness_mm;
    const double open = loose ? kFarOff_mm : brake.opening_mm;
    std::vector<ClosingTool> tools;
    for (Body& bar : barBodies(brake, step, thickness_mm)) tools.push_back({std::move(bar), closed, open, loose});
    if (brake.has_beam) tools.push_back({beamBody(brake, step, thickness_mm), closed, open, loose});
    tools.push_back({bedBody(brake, step, thickness_mm), 0, 0, false});
    tools.push_back({leafBody(brake, step, setting), 0, 0, false});
    return tools;
}

const Bar& firstDie(const Brake& brake, const FoldStep& step) { return brake.bars[piecesOf(brake, step, ToolRow::kDie).front().bar.index()]; }

// Both halves of dies go by the jaw; punches stand in the corner of the empty V, the ram on them.
std::vector<ClosingTool> jawTools(const Brake& brake, const FoldStep& step, const Setting& setting, const HemClosing& told) {
    std::vector<ClosingTool> tools;
    const Bar& die = firstDie(brake, step);
    if (!die.jaw) return tools;
    const Jaw& jaw = *die.jaw;
    const double sinks = jaw.opening_mm - told.height_mm;
    const double corner = 0.5 * die.vee->opening_mm / std::tan(0.5 * die.vee->angle.rad());
    const double told_tip = setting.stroke.thickness_mm;
    const double closed = die.height_mm - jaw.floor_mm - sinks - corner - told_tip;
    const double open = brake.press->open_height_mm - kShortOfTop_mm - setting.heights.punch_mm - jaw.floor_mm - told_tip;
    for (Body& piece : barBodies(brake, step, setting.stroke.thickness_mm)) {
        if (piece.carrier == Carrier::kUpper) tools.push_back({std::move(piece), closed, open, false});
    }
    tools.push_back({ramBody(brake, step, setting), closed, open, false});
    tools.push_back({pressBedBody(brake, step, setting), die.height_mm - jaw.floor_mm, die.height_mm - jaw.floor_mm, false});
    for (Body& half : jawUppers(brake, step)) tools.push_back({std::move(half), -sinks, 0, false});
    for (Body& half : jawLowers(brake, step, told.front_mm)) tools.push_back({std::move(half), 0, 0, false});
    for (Body& frame : sideFrameBodies(brake, step)) tools.push_back({std::move(frame), 0, 0, false});
    return tools;
}

}  // namespace

FlatsTold flatsOf(const Brake& brake, const FoldStep& step, double thickness_mm) {
    FlatsTold flats{-std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity()};
    for (const PlacedBar& placed : step.bars) {
        const Bar& bar = brake.bars[placed.bar.index()];
        if (bar.row != (brake.isPress() ? ToolRow::kDie : ToolRow::kUpper)) continue;
        const HemFlats own = hemFlats(brake, bar, thickness_mm);
        flats.front_mm = std::max(flats.front_mm, own.front_mm);
        flats.back_mm = std::min(flats.back_mm, own.front_mm + own.depth_mm);
        flats.opens_mm = std::min(flats.opens_mm, own.opens_mm + (brake.isPress() ? 0 : thickness_mm));
    }
    return flats;
}

std::vector<ClosingTool> closingTools(const Brake& brake, const FoldStep& step, const Setting& setting, const HemClosing& told) {
    std::vector<ClosingTool> tools = brake.isPress() ? jawTools(brake, step, setting, told) : clampTools(brake, step, setting, told);
    for (Body& frame : frameBodies(brake, step)) tools.push_back({std::move(frame), 0, 0, false});
    return tools;
}

}  // namespace tinwright::replay
