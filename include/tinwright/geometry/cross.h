// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/geometry/planar.h>

namespace tinwright {

/// The z component of the cross product: twice the area of the triangle 0, a, b, positive when b is counter-clockwise
/// from a.
[[nodiscard]] inline double cross(const Vec2& a, const Vec2& b) { return a.x() * b.y() - a.y() * b.x(); }

}  // namespace tinwright
