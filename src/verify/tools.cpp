// SPDX-License-Identifier: GPL-3.0-or-later
#include "tools.h"

#include <algorithm>

#include "inset.h"

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

Polygon shifted(Polygon polygon, const Vec2& by) {
    for (Vec2& point : polygon) point += by;
    return polygon;
}

Polygon box(double y0, double y1, double z0, double z1) { return {Vec2(y0, z0), Vec2(y1, z0), Vec2(y1, z1), Vec2(y0, z1)}; }

void addWhole(Shape& shape, const Region& section, double lo, double hi) {
    for (const Polygon& piece : convexPieces(section)) shape.whole.push_back({piece, lo, hi, alongMachine()});
}

void addShrunk(Shape& shape, const Region& section, double lo, double hi) {
    if (lo + kShrink_mm >= hi - kShrink_mm) return;
    for (const Polygon& piece : shrunkPieces(section, kShrink_mm)) {
        shape.shrunk.push_back({piece, lo + kShrink_mm, hi - kShrink_mm, alongMachine()});
    }
}

Shape extruded(const Polygon& section, double lo, double hi) {
    Shape shape;
    addWhole(shape, {section, {}}, lo, hi);
    addShrunk(shape, {section, {}}, lo, hi);
    return shape;
}

// Two prisms that overlap: the whole section as long as the relieved foot, and what is above the relief at full
// length. Shrinking each by itself is then shrinking their union: the step's underside goes up by the tolerance.
Shape barShape(const Bar& bar, const PlacedBar& placed, double thickness_mm) {
    const Region section{shifted(bar.profile, Vec2(0, thickness_mm)), {}};
    if (bar.end_relief_mm <= 0 || bar.end_relief_height_mm <= 0) return extruded(section.outline, placed.from_mm, placed.to_mm);
    Shape shape;
    const double lo = placed.from_mm + bar.end_relief_mm;
    const double hi = placed.to_mm - bar.end_relief_mm;
    if (lo < hi) {
        addWhole(shape, section, lo, hi);
        addShrunk(shape, section, lo, hi);
    }
    const double step_z = thickness_mm + bar.end_relief_height_mm;
    for (const Region& upper : intersection(section, box(-kFarOut_mm, kFarOut_mm, step_z, kFarOut_mm))) {
        addWhole(shape, upper, placed.from_mm, placed.to_mm);
        addShrunk(shape, upper, placed.from_mm, placed.to_mm);
    }
    return shape;
}

Shape machineLong(const Brake& brake, const FoldStep& step, const Polygon& section) {
    return extruded(section, -step.part_x_mm, brake.length_mm - step.part_x_mm);
}

}  // namespace

std::vector<Body> barBodies(const Brake& brake, const FoldStep& step, double thickness_mm) {
    std::vector<Body> bodies;
    for (std::size_t i = 0; i < step.bars.size(); ++i) {
        const Bar& bar = brake.bars[step.bars[i].bar.index()];
        bodies.push_back(makeBody("bar " + bar.id, BodyKind::kBar, barShape(bar, step.bars[i], thickness_mm)));
        bodies.back().piece = static_cast<int>(i);
    }
    return bodies;
}

Body beamBody(const Brake& brake, const FoldStep& step, double thickness_mm) {
    const double y = brake.beam.front_y_mm;
    const double z = brake.beam.height_mm + thickness_mm;
    return makeBody("beam", BodyKind::kBeam, machineLong(brake, step, box(y, y + kBeamSize_mm, z, z + kBeamSize_mm)));
}

Body bedBody(const Brake& brake, const FoldStep& step, double thickness_mm) {
    const Polygon section = shifted(brake.bed, Vec2(-brake.setbackFor_mm(thickness_mm), 0));
    return makeBody("bed", BodyKind::kBed, machineLong(brake, step, section));
}

Body leafBody(const Brake& brake, const FoldStep& step, const Setting& setting) {
    const double front = -setting.stroke.setback_mm - setting.face->reach_mm;
    const Polygon section = box(front, -setting.stroke.setback_mm, -setting.face->thickness_mm, 0);
    return makeBody("leaf", BodyKind::kLeaf, machineLong(brake, step, section));
}

std::vector<Prism> leafPrisms(const Brake& brake, const FoldStep& step, const Setting& setting, double back_mm,
                             double off_mm) {
    const double s = setting.stroke.setback_mm;
    const double thickness = setting.face->thickness_mm;
    const double reach = setting.face->reach_mm;
    if (thickness - back_mm <= 2 * off_mm || reach <= 2 * off_mm) return {};
    const Polygon section = box(-s - reach + off_mm, -s - off_mm, off_mm - thickness, -back_mm - off_mm);
    return {{section, off_mm - step.part_x_mm, brake.length_mm - step.part_x_mm - off_mm, alongMachine()}};
}

std::vector<Body> frameBodies(const Brake& brake, const FoldStep& step) {
    std::vector<Body> bodies;
    const Polygon section = box(-kFarOut_mm, kFarOut_mm, -kFarOut_mm, kFarOut_mm);
    const double left = -step.part_x_mm;
    const double right = left + brake.length_mm;
    if (!brake.overhang_left) {
        bodies.push_back(makeBody("left end frame", BodyKind::kFrame, extruded(section, left - kFarOut_mm, left)));
    }
    if (!brake.overhang_right) {
        bodies.push_back(makeBody("right end frame", BodyKind::kFrame, extruded(section, right, right + kFarOut_mm)));
    }
    return bodies;
}

}  // namespace tinwright::replay
