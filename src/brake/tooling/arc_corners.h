// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cmath>

#include <tinwright/brake/tooling/bar_profile.h>

/// Rounded edges of tools as polygons that enclose them.
namespace tinwright {

/// An arc's equal parts are each replaced by the corner where the tangents at their ends meet, radius / cos(half) from
/// the centre: the least number of parts that keeps the excess within kNoseArcError_mm.
[[nodiscard]] inline int arcParts(double radius_mm, double turn_rad) {
    const double half_rad = std::acos(radius_mm / (radius_mm + kNoseArcError_mm));
    return std::max(2, static_cast<int>(std::ceil(turn_rad / (2 * half_rad))));
}

/// The corners that stand in for a counter-clockwise arc of a convex edge, which begins where its outward normal points
/// `from_rad` (from y towards z). An even number: the tangent in its middle is an edge. The first and the last lie on
/// the tangents at its ends.
[[nodiscard]] inline Polygon arcCorners(const Vec2& centre, double radius_mm, double from_rad, double turn_rad) {
    const int parts = (arcParts(radius_mm, turn_rad) + 1) / 2 * 2;
    const double half_rad = turn_rad / (2 * parts);
    Polygon corners;
    for (int i = 0; i < parts; ++i) {
        const double normal_rad = from_rad + (2 * i + 1) * half_rad;
        corners.push_back(centre + radius_mm / std::cos(half_rad) * Vec2(std::cos(normal_rad), std::sin(normal_rad)));
    }
    return corners;
}

}  // namespace tinwright
