// SPDX-License-Identifier: GPL-3.0-or-later
#include "solids/shapes.h"

#include <algorithm>
#include <cmath>

#include <tinwright/geometry/polygons.h>

#include "solids/inset.h"

namespace tinwright::replay {

namespace {

constexpr double kSagitta_mm = 0.005;

// A sheet thinner than the tolerance twice over would vanish; a quarter a side leaves half of it.
double shrinkWithin(double extent_mm) { return std::min(kShrink_mm, 0.25 * extent_mm); }

Shape panelShape(const Region& region, double thickness_mm) {
    Shape shape;
    for (const Polygon& piece : convexPieces(region)) shape.whole.push_back({piece, 0, thickness_mm});
    const double off = shrinkWithin(thickness_mm);
    for (const Polygon& piece : shrunkPieces(region, kShrink_mm)) {
        shape.shrunk.push_back({piece, off, thickness_mm - off});
    }
    return shape;
}

// Slices of a ring sector from angle `from` to `to`, round the origin, starting at -y and turning towards +x.
std::vector<Polygon> ringSlices(double inner_mm, double outer_mm, double from_rad, double to_rad) {
    const double widest = 2.0 * std::acos(1.0 - std::min(0.5, kSagitta_mm / outer_mm));
    const int count = std::max(1, static_cast<int>(std::ceil((to_rad - from_rad) / widest)));
    const double step = (to_rad - from_rad) / count;
    const double tangent_inner = inner_mm / std::cos(0.5 * step);  // the chord then touches the inner arc
    const auto at = [](double radius, double a) { return Vec2(radius * std::sin(a), -radius * std::cos(a)); };
    std::vector<Polygon> slices;
    for (int i = 0; i < count; ++i) {
        const double a = from_rad + i * step;
        const double b = a + step;
        slices.push_back(hull({at(outer_mm, a), at(outer_mm, b), at(tangent_inner, b), at(tangent_inner, a)}));
    }
    return slices;
}

// x: away from the side that stays, y: towards the inside of the bend, origin at the arc's centre.
Rigid arcFrame(const Part& part, const Bend& bend, double radius_mm, bool child_stays) {
    const Vec2 outward = child_stays ? Vec2(-bend.toward_child) : bend.toward_child;
    const Vec2 tangent = bend.origin - 0.5 * bend.allowance_mm * outward;
    const Vec3 x(outward.x(), outward.y(), 0);
    const Vec3 y(0, 0, bend.up ? 1 : -1);
    Rigid frame = Rigid::Identity();
    frame.linear() << x, y, x.cross(y);
    frame.translation() = Vec3(tangent.x(), tangent.y(), bend.up ? part.thickness_mm + radius_mm : -radius_mm);
    return frame;
}

}  // namespace

std::vector<Shape> panelShapes(const Part& part) {
    std::vector<Shape> shapes;
    for (const Panel& panel : part.panels) shapes.push_back(panelShape(panel.region, part.thickness_mm));
    return shapes;
}

Shape flatStrip(const Part& part, const Bend& bend) {
    Rigid frame = Rigid::Identity();  // x along the bend, y across it, z by the right-hand rule
    const Vec3 x(bend.along.x(), bend.along.y(), 0);
    const Vec3 y(bend.toward_child.x(), bend.toward_child.y(), 0);
    const Vec3 z = x.cross(y);
    frame.linear() << x, y, z;
    frame.translation() = Vec3(bend.origin.x(), bend.origin.y(), z.z() > 0 ? 0 : part.thickness_mm);
    const double half = 0.5 * bend.allowance_mm;
    const double off_y = shrinkWithin(bend.allowance_mm);
    const double off_z = shrinkWithin(part.thickness_mm);
    Shape shape;
    for (const StripSpan& span : bend.spans) {
        const double off_x = shrinkWithin(span.length_mm());
        shape.whole.push_back({rectangle(span.from_mm, span.to_mm, -half, half), 0, part.thickness_mm, frame});
        shape.shrunk.push_back({rectangle(span.from_mm + off_x, span.to_mm - off_x, off_y - half, half - off_y), off_z,
                                part.thickness_mm - off_z, frame});
    }
    return shape;
}

Shape rolledStrip(const Part& part, const Bend& bend, Angle angle, double radius_mm, bool child_stays) {
    const Rigid frame = arcFrame(part, bend, radius_mm, child_stays);
    const double outer = radius_mm + part.thickness_mm;
    const double off = shrinkWithin(part.thickness_mm);
    const double off_rad = std::min(off / (radius_mm + off), 0.25 * angle.rad());
    const double sense = frame.linear().col(2).dot(Vec3(bend.along.x(), bend.along.y(), 0)) > 0 ? 1.0 : -1.0;
    const double base = frame.linear().col(2).dot(Vec3(bend.origin.x(), bend.origin.y(), 0) - frame.translation());
    const std::vector<Polygon> whole = ringSlices(radius_mm, outer, 0, angle.rad());
    const std::vector<Polygon> shrunk = ringSlices(radius_mm + off, outer - off, off_rad, angle.rad() - off_rad);
    Shape shape;
    for (const StripSpan& span : bend.spans) {
        const auto [lo, hi] = std::minmax({base + sense * span.from_mm, base + sense * span.to_mm});
        const double off_x = shrinkWithin(hi - lo);
        for (const Polygon& slice : whole) shape.whole.push_back({slice, lo, hi, frame});
        for (const Polygon& slice : shrunk) shape.shrunk.push_back({slice, lo + off_x, hi - off_x, frame});
    }
    return shape;
}

}  // namespace tinwright::replay
