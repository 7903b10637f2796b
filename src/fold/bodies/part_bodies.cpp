// SPDX-License-Identifier: GPL-3.0-or-later
#include "bodies/part_bodies.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <tinwright/base/contract.h>
#include <tinwright/geometry/polygons.h>

namespace tinwright {

namespace {

constexpr double kSharp_mm = 1e-6;

// A slice of an arc between two angles, extruded along the span. (u, z) as in pose.h.
PrismRings slice(const Bend& bend, const StripSpan& span, double thickness_mm, double radius_mm, double from,
                 double to) {
    const double outer = (radius_mm + thickness_mm) / std::cos(0.5 * (to - from));
    const double centre_z = bend.up ? thickness_mm + radius_mm : -radius_mm;
    const double down = bend.up ? -1.0 : 1.0;
    const Vec2 tangent = bend.origin - 0.5 * bend.allowance_mm * bend.toward_child;
    const auto point = [&](double along, double radius, double angle) {
        const Vec2 p = tangent + along * bend.along + radius * std::sin(angle) * bend.toward_child;
        return lifted(p, centre_z + down * radius * std::cos(angle));
    };
    const auto ring = [&](double along) {
        std::vector<Vec3> corners{point(along, outer, from), point(along, outer, to), point(along, radius_mm, to)};
        if (radius_mm > kSharp_mm) corners.push_back(point(along, radius_mm, from));
        return corners;
    };
    return {ring(span.from_mm), ring(span.to_mm)};
}

// Sheet along a bend between two distances from its line, towards the child.
PrismRings flatBeside(const Bend& bend, const StripSpan& span, double from_mm, double to_mm, double thickness_mm) {
    const Vec2 from = from_mm * bend.toward_child;
    const Vec2 to = to_mm * bend.toward_child;
    const Vec2 a = bend.origin + span.from_mm * bend.along;
    const Vec2 b = bend.origin + span.to_mm * bend.along;
    return prismOf({a + from, b + from, b + to, a + to}, 0, thickness_mm);
}

PrismRings flatStrip(const Bend& bend, const StripSpan& span, double thickness_mm) {
    return flatBeside(bend, span, -0.5 * bend.allowance_mm, 0.5 * bend.allowance_mm, thickness_mm);
}

std::vector<PrismRings> slicesOf(const Bend& bend, double thickness_mm, double radius_mm, Angle angle) {
    const double outer = radius_mm + thickness_mm;
    const double step = 2 * std::acos(outer / (outer + kArcSagitta_mm));
    const int count = std::max(1, static_cast<int>(std::ceil(angle.rad() / step)));
    std::vector<PrismRings> slices;
    for (const StripSpan& span : bend.spans) {
        for (int i = 0; i < count; ++i)
            slices.push_back(
                slice(bend, span, thickness_mm, radius_mm, angle.rad() * i / count, angle.rad() * (i + 1) / count));
    }
    return slices;
}

}  // namespace

PartBodies::PartBodies(const PartOnBrake& on_brake, double inside_radius_mm, std::vector<double> radii_mm)
    : on_brake_(&on_brake),
      part_(&on_brake.part()),
      inside_radius_mm_(inside_radius_mm),
      radii_mm_(std::move(radii_mm)),
      from_base_(part_->panels.size(), 0),
      bend_above_(part_->panels.size(), -1),
      depth_(part_->panels.size(), 0) {
    if (radii_mm_.empty()) radii_mm_.assign(part_->bends.size(), inside_radius_mm);
    TINWRIGHT_REQUIRE(radii_mm_.size() == part_->bends.size(), "a radius for each bend");
    for (std::size_t i = 0; i < part_->panels.size(); ++i) {
        Group group{false, {}, idAt<PanelId>(i), {}, {}};
        for (const Polygon& piece : convexPieces(part_->panels[i].region)) {
            group.flat.push_back(prismOf(piece, 0, part_->thickness_mm));
        }
        groups_.push_back(std::move(group));
    }
    addStrips();
}

void PartBodies::addStrips() {
    for (std::size_t i = 0; i < part_->bends.size(); ++i) {
        const Bend& bend = part_->bends[i];
        const std::size_t child = bend.child.index();
        from_base_[child] = from_base_[bend.parent.index()] | bit(idAt<BendId>(i));
        bend_above_[child] = static_cast<int>(i);
        depth_[child] = depth_[bend.parent.index()] + 1;
        const Bend made = finished(bend);
        parent_from_child_.push_back(
            parentFromChild(made, part_->thickness_mm, made.angle, formedRadius_mm(idAt<BendId>(i))));
        child_from_parent_.push_back(parent_from_child_.back().inverse());
        Group group{
            true, idAt<BendId>(i), bend.parent, {}, bend.hem ? closedHem(bend) : arcOf(idAt<BendId>(i), bend.angle)};
        for (const StripSpan& span : bend.spans) group.flat.push_back(flatStrip(bend, span, part_->thickness_mm));
        groups_.push_back(std::move(group));
    }
}

double PartBodies::formedRadius_mm(BendId id) const {
    const Bend& bend = part_->bend(id);
    return bend.hem ? finished(bend).inside_radius_mm : radii_mm_[id.index()];
}

std::vector<PrismRings> PartBodies::arcOf(BendId id, Angle angle) const {
    return slicesOf(part_->bend(id), part_->thickness_mm, radii_mm_[id.index()], angle);
}

// Between the arc and the panels, flat on either side, lies what the wider strip of the first fold took from them.
std::vector<PrismRings> PartBodies::closedHem(const Bend& bend) const {
    const Bend closed = finished(bend);
    std::vector<PrismRings> rings = slicesOf(closed, part_->thickness_mm, closed.inside_radius_mm, closed.angle);
    const double inner = 0.5 * closed.allowance_mm;
    const double outer = 0.5 * bend.allowance_mm;
    if (outer - inner < kSharp_mm) return rings;
    const Rigid turned = parentFromChild(closed, part_->thickness_mm, closed.angle, closed.inside_radius_mm);
    for (const StripSpan& span : bend.spans) {
        rings.push_back(flatBeside(bend, span, -outer, -inner, part_->thickness_mm));
        PrismRings far = flatBeside(bend, span, inner, outer, part_->thickness_mm);
        for (Vec3& corner : far.bottom) corner = turned * corner;
        for (Vec3& corner : far.top) corner = turned * corner;
        rings.push_back(std::move(far));
    }
    return rings;
}

Rigid PartBodies::pose(PanelId a, PanelId b, BendMask formed) const {
    Rigid from_a = Rigid::Identity();  // a <- common ancestor
    Rigid to_b = Rigid::Identity();    // common ancestor <- b
    while (a != b) {
        const bool climb_a = depth_[a.index()] >= depth_[b.index()];
        const auto bend = idAt<BendId>(static_cast<std::size_t>(bend_above_[(climb_a ? a : b).index()]));
        const bool is_formed = contains(formed, bend);
        if (climb_a) {
            if (is_formed) from_a = from_a * child_from_parent_[bend.index()];
            a = part_->bend(bend).parent;
        } else {
            if (is_formed) to_b = parent_from_child_[bend.index()] * to_b;
            b = part_->bend(bend).parent;
        }
    }
    return from_a * to_b;
}

}  // namespace tinwright
