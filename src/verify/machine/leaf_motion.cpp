// SPDX-License-Identifier: GPL-3.0-or-later
#include "machine/leaf_motion.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tinwright::replay {

namespace {

// Where the front edge of the leaf's face at the hinge line is, and the moving side's outer tangent point with its
// direction outwards, when both have turned.
struct Turned {
    Vec2 begin;
    Vec2 tangent;
    Vec2 outwards;
};

Turned turnedBy(const Bending& stroke, const Hinge& hinge, double angle_rad) {
    const Vec2 outwards(-std::cos(angle_rad), std::sin(angle_rad));
    const Vec2 inwards(std::sin(angle_rad), std::cos(angle_rad));  // from the leaf's face into the sheet
    const Vec2 begin = hinge.place() - hinge.over_leaf_mm * inwards;
    const double outer_mm = stroke.inside_radius_mm + stroke.thickness_mm;
    return {begin, stroke.centre() - outer_mm * inwards, outwards};
}

}  // namespace

LeafBegins leafBeginsPastStrip(const Bending& stroke, const Hinge& hinge) {
    constexpr double kStep_rad = 0.002;
    const auto count = static_cast<int>(std::ceil(stroke.set_rad / kStep_rad));
    LeafBegins begins{std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
    for (int i = 0; i <= count; ++i) {
        const double share = static_cast<double>(i) / std::max(1, count);
        const Turned at = turnedBy(stroke, hinge, share * stroke.set_rad);
        const double flat_strip_mm = stroke.allowance_mm * (1 - share);
        const double at_mm = at.outwards.dot(at.begin - at.tangent) - flat_strip_mm;
        begins = {std::min(begins.least_mm, at_mm), std::max(begins.most_mm, at_mm)};
    }
    return begins;
}

double leafBack_mm(const Bending& stroke, const Hinge& hinge, const Motion& motion, double angle_rad) {
    // Along the leaf's normal (sin a, cos a), from the bend's centre down; the leaf's face lies so far under the
    // hinge.
    const Vec2 arm = stroke.centre() - hinge.place();
    const double face = arm.x() * std::sin(angle_rad) + arm.y() * std::cos(angle_rad) + hinge.over_leaf_mm;
    return std::max(0.0, outerFace_mm(stroke, motion, angle_rad) - face);
}

}  // namespace tinwright::replay
