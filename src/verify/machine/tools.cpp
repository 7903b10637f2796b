// SPDX-License-Identifier: GPL-3.0-or-later
#include "machine/tools.h"

#include <algorithm>
#include <optional>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/geometry/polygons.h>

#include "solids/inset.h"

namespace tinwright::replay {

namespace {

void addWhole(Shape& shape, const Region& section, double lo, double hi) {
    for (const Polygon& piece : convexPieces(section)) shape.whole.push_back({piece, lo, hi, alongMachine()});
}

void addShrunk(Shape& shape, const Region& section, double lo, double hi) {
    if (lo + kShrink_mm >= hi - kShrink_mm) return;
    for (const Polygon& piece : shrunkPieces(section, kShrink_mm)) {
        shape.shrunk.push_back({piece, lo + kShrink_mm, hi - kShrink_mm, alongMachine()});
    }
}

Shape extruded(const Polygon& section, double lo, double hi) { return drawnAlong({section, {}}, lo, hi); }

// What of a bar is cut back at its ends, and what is not.
struct CutBack {
    double left_mm = 0;
    double right_mm = 0;
    double full_from_mm = 0;  ///< heights in the bar's own frame between which it has its whole width
    double full_to_mm = 0;
};

std::optional<CutBack> cutBackOf(const Brake& brake, ToolId tool) {
    const Punch* punch = brake.punch(tool);
    if (punch != nullptr && punch->horn) {
        const Horn& horn = *punch->horn;
        return CutBack{horn.at_left ? horn.reach_mm : 0, horn.at_left ? 0 : horn.reach_mm, -kFarOut_mm, horn.height_mm};
    }
    const Bar* bar = brake.bar(tool);
    if (bar == nullptr || bar->end_relief_mm <= 0 || bar->end_relief_height_mm <= 0) return std::nullopt;
    return CutBack{bar->end_relief_mm, bar->end_relief_mm, bar->end_relief_height_mm, kFarOut_mm};
}

// Two prisms that overlap: the whole section as long as what is cut back, and what is not cut back at full
// length. Shrinking each by itself is then shrinking their union: the step's free side goes back by the tolerance.
Shape barShape(const Brake& brake, const PlacedTool& placed, double raised_mm) {
    const Region section{shifted(brake.tool(placed.tool).profile, Vec2(0, raised_mm)), {}};
    const std::optional<CutBack> cut = cutBackOf(brake, placed.tool);
    if (!cut) return extruded(section.outline, placed.from_mm, placed.to_mm);
    Shape shape;
    const double lo = placed.from_mm + cut->left_mm;
    const double hi = placed.to_mm - cut->right_mm;
    if (lo < hi) {
        addWhole(shape, section, lo, hi);
        addShrunk(shape, section, lo, hi);
    }
    for (const Region& full : intersection(
             section, rectangle(-kFarOut_mm, kFarOut_mm, raised_mm + cut->full_from_mm, raised_mm + cut->full_to_mm))) {
        addWhole(shape, full, placed.from_mm, placed.to_mm);
        addShrunk(shape, full, placed.from_mm, placed.to_mm);
    }
    return shape;
}

}  // namespace

std::vector<PlacedTool> piecesOf(const BrakeInSetup& brake, const FoldStep& step, ToolRow row) {
    std::vector<PlacedTool> pieces;
    for (const PlacedTool& placed : step.tools) {
        if (placed.tool.index() < brake->toolCount() && brake->rowOf(placed.tool) == row) pieces.push_back(placed);
    }
    return pieces;
}

Rigid alongMachine() {
    Rigid frame = Rigid::Identity();
    frame.linear() << 0, 0, 1, 1, 0, 0, 0, 1, 0;
    return frame;
}

Shape drawnAlong(const Region& section, double from_mm, double to_mm) {
    Shape shape;
    addWhole(shape, section, from_mm, to_mm);
    addShrunk(shape, section, from_mm, to_mm);
    return shape;
}

Shape machineLong(const BrakeInSetup& brake, const FoldStep& step, const Polygon& section) {
    return extruded(section, -step.part_x_mm, brake->length_mm - step.part_x_mm);
}

Body carried(Body body, Carrier carrier) {
    body.carrier = carrier;
    return body;
}

Body pieceBody(const Brake& brake, const PlacedTool& placed, const std::string& called, double upper_mm) {
    const bool lower = brake.rowOf(placed.tool) == ToolRow::kLower;
    Body body = makeBody(called + " " + brake.tool(placed.tool).id, lower ? BodyKind::kDie : BodyKind::kBar,
                         barShape(brake, placed, lower ? 0 : upper_mm));
    return carried(std::move(body), lower ? Carrier::kLower : Carrier::kUpper);
}

std::vector<Body> frameBodies(const BrakeInSetup& brake, const FoldStep& step) {
    std::vector<Body> bodies;
    const Polygon section = rectangle(-kFarOut_mm, kFarOut_mm, -kFarOut_mm, kFarOut_mm);
    const double left = -step.part_x_mm;
    const double right = left + brake->length_mm;
    if (!brake->overhang_left) {
        bodies.push_back(makeBody("left end frame", BodyKind::kFrame, extruded(section, left - kFarOut_mm, left)));
    }
    if (!brake->overhang_right) {
        bodies.push_back(makeBody("right end frame", BodyKind::kFrame, extruded(section, right, right + kFarOut_mm)));
    }
    return bodies;
}

}  // namespace tinwright::replay
