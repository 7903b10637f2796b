// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>

#include <tinwright/geometry/planar.h>
#include <tinwright/part/model/part.h>

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

/// From the first to the last of it along a line.
[[nodiscard]] inline StripSpan extentAlong(const Polygon& polygon, const Vec2& origin, const Vec2& along) {
    StripSpan span{1e300, -1e300};
    for (const Vec2& point : polygon) {
        const double at = along.dot(point - origin);
        span = {std::min(span.from_mm, at), std::max(span.to_mm, at)};
    }
    return span;
}

}  // namespace tinwright
