// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/geometry/planar.h>

namespace tinwright::forming {

/// Extent of a polygon along both axes.
struct Box {
    Vec2 least = Vec2::Zero();
    Vec2 most = Vec2::Zero();

    [[nodiscard]] Vec2 middle() const { return 0.5 * (least + most); }
};
/// At least one corner.
[[nodiscard]] Box boxOf(const Polygon& polygon);

/// True when both lie within `tolerance_mm` of one another.
[[nodiscard]] bool isSame(const Box& a, const Box& b, double tolerance_mm);

}  // namespace tinwright::forming
