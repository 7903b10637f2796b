// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/geometry/planar.h>

namespace tinwright {

/// True for a point inside a ring; on the ring itself either.
[[nodiscard]] inline bool isWithin(const Polygon& ring, const Vec2& point) {
    bool inside = false;
    for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
        const Vec2& a = ring[i];
        const Vec2& b = ring[j];
        if ((a.y() > point.y()) != (b.y() > point.y()) &&
            point.x() < a.x() + (point.y() - a.y()) / (b.y() - a.y()) * (b.x() - a.x())) {
            inside = !inside;
        }
    }
    return inside;
}

}  // namespace tinwright
