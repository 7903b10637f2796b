// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <optional>

#include <tinwright/geometry/planar.h>

namespace tinwright::forming {

/// A cut-out that two drills and a saw can make: about as long as it is wide, or a straight slot or slit.
struct NarrowSlot {
    double length_mm = 0;
    double width_mm = 0;
    std::array<Vec2, 2> ends;  ///< centres of circles that are as wide as the slot and touch its ends; equal for one
                               ///< about as long as wide
};

/// The rectangle round a polygon with the least width; nothing for a shape that does not fill it (an L, a star).
[[nodiscard]] std::optional<NarrowSlot> slotOf(const Polygon& polygon);

}  // namespace tinwright::forming
