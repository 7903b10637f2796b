// SPDX-License-Identifier: GPL-3.0-or-later
#include "machine/press_tools.h"

#include <tinwright/geometry/polygons.h>

#include "machine/tools.h"

namespace tinwright::replay {

namespace {

double heightOfFirst_mm(const BrakeInSetup& brake, const std::vector<PlacedTool>& pieces) {
    return pieces.empty() ? 0 : brake->tool(pieces.front().tool).height_mm;
}

}  // namespace

PressHeights heightsOf(const BrakeInSetup& brake, const FoldStep& step) {
    return {heightOfFirst_mm(brake, piecesOf(brake, step, ToolRow::kUpper)),
            heightOfFirst_mm(brake, piecesOf(brake, step, ToolRow::kLower))};
}

Body ramBody(const BrakeInSetup& brake, const FoldStep& step, double seat_mm) {
    const Polygon section = shifted(brake->press().ram, Vec2(0, seat_mm));
    return carried(makeBody("ram", BodyKind::kBeam, machineLong(brake, step, section)), Carrier::kUpper);
}

Body pressBedBody(const BrakeInSetup& brake, const FoldStep& step, double die_mm) {
    const Polygon section = shifted(brake->press().bed, Vec2(0, -die_mm));
    return carried(makeBody("bed", BodyKind::kBed, machineLong(brake, step, section)), Carrier::kLower);
}

std::vector<Body> sideFrameBodies(const BrakeInSetup& brake, const FoldStep& step) {
    const PressBrake& press = brake->press();
    if (press.throat_mm <= 0) return {};
    const Polygon section = rectangle(press.throat_mm, kFarOut_mm, -kFarOut_mm, kFarOut_mm);
    const double left = press.frames_left_mm - step.part_x_mm;
    const double right = press.frames_right_mm - step.part_x_mm;
    return {makeBody("left side frame", BodyKind::kSideFrame, drawnAlong({section, {}}, left - kFarOut_mm, left)),
            makeBody("right side frame", BodyKind::kSideFrame, drawnAlong({section, {}}, right, right + kFarOut_mm))};
}

}  // namespace tinwright::replay
