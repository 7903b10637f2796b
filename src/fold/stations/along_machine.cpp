// SPDX-License-Identifier: GPL-3.0-or-later
#include "stations/along_machine.h"

#include <algorithm>

#include <tinwright/brake/machines/brake_in_setup.h>

namespace tinwright {

IntervalSet AlongMachine::partRoom(const StrokeScene& scene, const Obstacles& obstacles, Micron margin) const {
    const BrakeInSetup& brake = table_.machine().brake();
    const Micron length = micronFloor(brake->length_mm);
    const Micron end = micronFloor(table_.limits().past_machine_mm);
    Interval range{-(scene.needs.front().lo + end) - 1, length - (scene.needs.back().hi - end) + 1};
    if (!brake->overhang_left) range.lo = std::max(range.lo, -scene.extent.lo - 1);
    if (!brake->overhang_right) range.hi = std::min(range.hi, length - scene.extent.hi + 1);
    if (!obstacles.frames.empty()) {
        const Interval within = table_.machine().betweenFrames();
        range.lo = std::max(range.lo, within.lo + margin - obstacles.frames.items().front().lo - 1);
        range.hi = std::min(range.hi, within.hi - margin - obstacles.frames.items().back().hi + 1);
    }
    if (range.empty()) return {};
    IntervalSet barred;
    for (const Interval& item : obstacles.machine.items())
        barred.add(Interval{-item.hi - margin, length - item.lo + margin});
    return barred.gapsIn(range);
}

// Where what holds the sheet stands: all of it, or each string by itself where the part may be laid under any one.
std::vector<Interval> AlongMachine::stationsOf(const Placed& placed) const {
    Setup setup{placed.face, {}};
    for (const StandingTool& bar : placed.bars)
        setup.pieces.push_back({bar.tool, {bar.at.lo + placed.part_x_um, bar.at.hi + placed.part_x_um}});
    return stationsOf(setup);
}

std::vector<Interval> AlongMachine::stationsOf(const Setup& setup) const {
    const Machine& machine = table_.machine();
    const Micron apart = machine.hasStations() ? micronFloor(table_.limits().bar_gap_mm) : kFar;
    std::vector<Interval> stations;
    for (const SetupPiece& piece : setup.pieces) {
        if (machine.families()[machine.familyOf(piece.tool)].row != ToolRow::kUpper) continue;
        if (stations.empty() || piece.at.lo - stations.back().hi > apart) stations.push_back(piece.at);
        stations.back().hi = std::max(stations.back().hi, piece.at.hi);
    }
    return stations;
}

BarString AlongMachine::ofRow(const BarString& bars, ToolRow row) const {
    BarString kept;
    for (const StandingTool& bar : bars) {
        if (table_.machine().families()[table_.machine().familyOf(bar.tool)].row == row) kept.push_back(bar);
    }
    return kept;
}

bool AlongMachine::covered(const StrokeScene& scene, const BarString& bars) const {
    return strings_.covers(scene.needs, ofRow(bars, ToolRow::kUpper)) &&
           (!table_.machine().hasLowerRow() || strings_.covers(scene.needs, ofRow(bars, ToolRow::kLower)));
}

double AlongMachine::coveredShare(const StrokeScene& scene, const BarString& bars) const {
    IntervalSet covered;
    for (const StandingTool& bar : ofRow(bars, ToolRow::kUpper)) covered.add(bar.at);
    IntervalSet need;
    Micron all = 0;
    for (const Interval& item : scene.needs) {
        need.add(item);
        all += item.length();
    }
    return static_cast<double>(covered.intersect(need).intersect(scene.clamped).length()) /
           static_cast<double>(std::max<Micron>(all, 1));
}

}  // namespace tinwright
