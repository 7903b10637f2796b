// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/strip_slabs.h"

#include <algorithm>
#include <cmath>

namespace tinwright::report {
namespace {

constexpr double kSlice_rad = 0.2;
constexpr double kSharp_mm = 1e-6;

/// The strip in a frame of its own: u from its start line into it, z up in the blank.
struct StripFrame {
    Vec2 start;  ///< on the tangent line where the arc starts, under Bend::origin
    Vec2 u;
    Vec2 along;
    double centre_z;
    double down;  ///< -1 when the arc's centre is above the sheet

    [[nodiscard]] Vec3 at(double along_mm, double u_mm, double z_mm) const {
        const Vec2 p = start + along_mm * along + u_mm * u;
        return {p.x(), p.y(), z_mm};
    }
    [[nodiscard]] Vec3 onArc(double along_mm, double radius_mm, double angle) const {
        return at(along_mm, radius_mm * std::sin(angle), centre_z + down * radius_mm * std::cos(angle));
    }
};

StripFrame frameOf(const Bend& bend, double thickness_mm, double radius_mm, bool from_parent) {
    const Vec2 u = from_parent ? bend.toward_child : Vec2(-bend.toward_child);
    return {bend.origin - 0.5 * bend.allowance_mm * u, u, bend.along, bend.up ? thickness_mm + radius_mm : -radius_mm,
            bend.up ? -1.0 : 1.0};
}

Slab arcSlice(const StripFrame& frame, const StripSpan& span, double inner_mm, double thickness_mm, double from,
              double to) {
    Slab slab;
    const auto ring = [&](double along_mm) {
        std::vector<Vec3> corners{frame.onArc(along_mm, inner_mm + thickness_mm, from),
                                  frame.onArc(along_mm, inner_mm + thickness_mm, to),
                                  frame.onArc(along_mm, inner_mm, to)};
        if (inner_mm > kSharp_mm) corners.push_back(frame.onArc(along_mm, inner_mm, from));
        return corners;
    };
    return {ring(span.from_mm), ring(span.to_mm)};
}

/// What is still flat lies along the tangent at the arc's end.
Slab flatRest(const StripFrame& frame, const StripSpan& span, const StripState& state, double inner_mm,
              double thickness_mm, double length_mm) {
    const double cos = std::cos(state.angle_rad);
    const double sin = std::sin(state.angle_rad);
    const auto ring = [&](double along_mm) {
        std::vector<Vec3> corners;
        for (const double radius : {inner_mm + thickness_mm, inner_mm}) {
            const Vec3 start = frame.onArc(along_mm, radius, state.angle_rad);
            const Vec3 step(length_mm * cos * frame.u.x(), length_mm * cos * frame.u.y(),
                            -frame.down * length_mm * sin);
            if (radius > inner_mm) {
                corners.push_back(start);
                corners.emplace_back(start + step);
            } else {
                corners.emplace_back(start + step);
                corners.push_back(start);
            }
        }
        return corners;
    };
    return {ring(span.from_mm), ring(span.to_mm)};
}

}  // namespace

int arcSlices(double angle_rad) { return std::max(1, static_cast<int>(std::ceil(angle_rad / kSlice_rad))); }

std::vector<Slab> closedHemSlabs(const Bend& bend, double thickness_mm) {
    const Bend closed = finished(bend);
    std::vector<Slab> slabs = stripSlabs(closed, thickness_mm, closed.inside_radius_mm, {closed.angle.rad(), 1, true});
    const double flat_mm = 0.5 * (bend.allowance_mm - closed.allowance_mm);
    if (flat_mm < kSharp_mm) return slabs;
    const Rigid turned = parentFromChild(closed, thickness_mm, closed.angle, closed.inside_radius_mm);
    for (const bool child : {false, true}) {
        Bend flat = bend;
        flat.allowance_mm = flat_mm;
        flat.origin = bend.origin + (child ? 0.5 : -0.5) * (closed.allowance_mm + flat_mm) * bend.toward_child;
        for (Slab slab : stripSlabs(flat, thickness_mm, closed.inside_radius_mm, {0, 0, true})) {
            for (Vec3& point : slab.lower) point = child ? Vec3(turned * point) : point;
            for (Vec3& point : slab.upper) point = child ? Vec3(turned * point) : point;
            slabs.push_back(std::move(slab));
        }
    }
    return slabs;
}

std::vector<Slab> stripSlabs(const Bend& bend, double thickness_mm, double radius_mm, const StripState& state) {
    const StripFrame frame = frameOf(bend, thickness_mm, radius_mm, state.from_parent);
    std::vector<Slab> slabs;
    for (const StripSpan& span : bend.spans) {
        const int count = state.angle_rad > 0 ? arcSlices(state.angle_rad) : 0;
        for (int i = 0; i < count; ++i) {
            slabs.push_back(arcSlice(frame, span, radius_mm, thickness_mm, state.angle_rad * i / count,
                                     state.angle_rad * (i + 1) / count));
        }
        const double rest = bend.allowance_mm * (1 - state.share);
        if (rest > kSharp_mm) slabs.push_back(flatRest(frame, span, state, radius_mm, thickness_mm, rest));
    }
    return slabs;
}

std::vector<Slab> newStripSlabs(const Bend& bend, double thickness_mm, double radius_mm, const StripState& state,
                                RollsFrom rolls_from) {
    if (rolls_from == RollsFrom::kHeldSide) return stripSlabs(bend, thickness_mm, radius_mm, state);
    std::vector<Slab> slabs;
    for (const bool to_child : {false, true}) {
        Bend half = bend;
        half.allowance_mm = 0.5 * bend.allowance_mm;
        half.origin = bend.origin + (to_child ? 0.25 : -0.25) * bend.allowance_mm * bend.toward_child;
        const std::vector<Slab> side =
            stripSlabs(half, thickness_mm, radius_mm, {0.5 * state.angle_rad, state.share, to_child});
        slabs.insert(slabs.end(), side.begin(), side.end());
    }
    return slabs;
}

}  // namespace tinwright::report
