// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/geometry/planar.h>

namespace tinwright {

/// Counter-clockwise from the corner with the least coordinates.
[[nodiscard]] inline Polygon rectangle(double x_lo, double x_hi, double y_lo, double y_hi) {
    return {Vec2(x_lo, y_lo), Vec2(x_hi, y_lo), Vec2(x_hi, y_hi), Vec2(x_lo, y_hi)};
}

[[nodiscard]] inline Polygon shifted(Polygon polygon, const Vec2& by) {
    for (Vec2& point : polygon) point += by;
    return polygon;
}

/// The point at a height over the plane.
[[nodiscard]] inline Vec3 lifted(const Vec2& point, double z_mm = 0) { return {point.x(), point.y(), z_mm}; }

}  // namespace tinwright
