// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/Geometry>

#include <tinwright/geometry/planar.h>

namespace tinwright {

/// Extent of a polygon along both axes; empty without corners.
[[nodiscard]] inline Eigen::AlignedBox2d boxOf(const Polygon& polygon) {
    Eigen::AlignedBox2d box;
    for (const Vec2& point : polygon) box.extend(point);
    return box;
}

/// True when the corners of both lie within `tolerance_mm` of one another.
[[nodiscard]] inline bool isSameBox(const Eigen::AlignedBox2d& a, const Eigen::AlignedBox2d& b, double tolerance_mm) {
    return (a.min() - b.min()).norm() < tolerance_mm && (a.max() - b.max()).norm() < tolerance_mm;
}

}  // namespace tinwright
