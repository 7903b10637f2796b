// SPDX-License-Identifier: GPL-3.0-or-later
#include "machine/tools.h"

#include <algorithm>
#include <optional>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/geometry/polygons.h>

#include "solids/inset.h"

namespace tinwright::replay {

namespace {

constexpr double kFarOut_mm = 5000.0;
constexpr double kBeamSize_mm = 2000.0;  // of the machine model

// A section's (x, y) becomes the machine's (y, z); prisms are drawn along the machine's x.
Rigid alongMachine() {
    Rigid frame = Rigid::Identity();
    frame.linear() << 0, 0, 1, 1, 0, 0, 0, 1, 0;
    return frame;
}

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
Shape barShape(const Brake& brake, const PlacedBar& placed, double raised_mm) {
    const Region section{shifted(brake.tool(placed.bar).profile, Vec2(0, raised_mm)), {}};
    const std::optional<CutBack> cut = cutBackOf(brake, placed.bar);
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

Body pieceBody(const Brake& brake, const PlacedBar& placed, double thickness_mm) {
    const bool die = brake.rowOf(placed.bar) == ToolRow::kLower;
    const std::string name = (die ? "die " : brake.isPress() ? "punch " : "bar ") + brake.tool(placed.bar).id;
    Body body = makeBody(name, die ? BodyKind::kDie : BodyKind::kBar, barShape(brake, placed, die ? 0 : thickness_mm));
    body.carrier = die ? Carrier::kLower : Carrier::kUpper;
    return body;
}

Body carried(Body body, Carrier carrier) {
    body.carrier = carrier;
    return body;
}

Shape machineLong(const BrakeInSetup& brake, const FoldStep& step, const Polygon& section) {
    return extruded(section, -step.part_x_mm, brake->length_mm - step.part_x_mm);
}

}  // namespace

Shape drawnAlong(const Region& section, double from_mm, double to_mm) {
    Shape shape;
    addWhole(shape, section, from_mm, to_mm);
    addShrunk(shape, section, from_mm, to_mm);
    return shape;
}

std::vector<Body> barBodies(const BrakeInSetup& brake, const FoldStep& step, double thickness_mm) {
    std::vector<Body> bodies;
    for (std::size_t i = 0; i < step.bars.size(); ++i) {
        bodies.push_back(pieceBody(*brake, step.bars[i], thickness_mm));
        bodies.back().piece = static_cast<int>(i);
    }
    return bodies;
}

Body beamBody(const BrakeInSetup& brake, const FoldStep& step, double thickness_mm) {
    const double y = brake->leaf().beam->front_y_mm;
    const double z = brake->leaf().beam->height_mm + thickness_mm;
    return carried(makeBody("beam", BodyKind::kBeam,
                            machineLong(brake, step, rectangle(y, y + kBeamSize_mm, z, z + kBeamSize_mm))),
                   Carrier::kUpper);
}

Body bedBody(const BrakeInSetup& brake, const FoldStep& step) {
    const Polygon section = shifted(brake->leaf().bed, Vec2(-brake.setback_mm(), 0));
    return makeBody("bed", BodyKind::kBed, machineLong(brake, step, section));
}

Body leafBody(const BrakeInSetup& brake, const FoldStep& step, const Setting& setting) {
    const double front = -setting.stroke.setback_mm - setting.face->reach_mm;
    const Polygon section = rectangle(front, -setting.stroke.setback_mm, -setting.face->thickness_mm, 0);
    return makeBody("leaf", BodyKind::kLeaf, machineLong(brake, step, section));
}

std::vector<Prism> leafPrisms(const BrakeInSetup& brake, const FoldStep& step, const Setting& setting, double back_mm,
                              double off_mm) {
    const double s = setting.stroke.setback_mm;
    const double thickness = setting.face->thickness_mm;
    const double reach = setting.face->reach_mm;
    if (thickness - back_mm <= 2 * off_mm || reach <= 2 * off_mm) return {};
    const Polygon section = rectangle(-s - reach + off_mm, -s - off_mm, off_mm - thickness, -back_mm - off_mm);
    return {{section, off_mm - step.part_x_mm, brake->length_mm - step.part_x_mm - off_mm, alongMachine()}};
}

Body ramBody(const BrakeInSetup& brake, const FoldStep& step, const Setting& setting) {
    const Polygon section =
        shifted(brake->press().ram, Vec2(0, setting.stroke.thickness_mm + setting.heights.punch_mm));
    return carried(makeBody("ram", BodyKind::kBeam, machineLong(brake, step, section)), Carrier::kUpper);
}

Body pressBedBody(const BrakeInSetup& brake, const FoldStep& step, const Setting& setting) {
    const Polygon section = shifted(brake->press().bed, Vec2(0, -setting.heights.die_mm));
    return carried(makeBody("bed", BodyKind::kBed, machineLong(brake, step, section)), Carrier::kLower);
}

std::vector<Body> sideFrameBodies(const BrakeInSetup& brake, const FoldStep& step) {
    const PressBrake& press = brake->press();
    if (press.throat_mm <= 0) return {};
    const Polygon section = rectangle(press.throat_mm, kFarOut_mm, -kFarOut_mm, kFarOut_mm);
    const double left = press.frames_left_mm - step.part_x_mm;
    const double right = press.frames_right_mm - step.part_x_mm;
    return {makeBody("left side frame", BodyKind::kSideFrame, extruded(section, left - kFarOut_mm, left)),
            makeBody("right side frame", BodyKind::kSideFrame, extruded(section, right, right + kFarOut_mm))};
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
