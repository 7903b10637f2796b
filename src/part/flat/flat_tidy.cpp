// SPDX-License-Identifier: GPL-3.0-or-later
#include "flat/flat_tidy.h"

#include <algorithm>
#include <cmath>

namespace tinwright {

namespace {

constexpr double kSnap_mm = 1e-3;
// A corner nearer than this to the line through its neighbours turns nothing.
constexpr double kStraight_mm = 1e-6;

double distanceToLine(const Vec2& point, const Vec2& a, const Vec2& b) {
    const Vec2 d = b - a;
    const double length = d.norm();
    if (length < kStraight_mm) return 0;  // the tip of a spike
    return std::abs(d.x() * (point.y() - a.y()) - d.y() * (point.x() - a.x())) / length;
}

void dropIdle(Polygon& ring) {
    std::size_t kept_since_drop = 0;
    for (std::size_t i = 0; ring.size() > 3 && kept_since_drop < ring.size();) {
        i %= ring.size();
        const std::size_t before = (i + ring.size() - 1) % ring.size();
        const std::size_t after = (i + 1) % ring.size();
        if (distanceToLine(ring[i], ring[before], ring[after]) < kStraight_mm) {
            ring.erase(ring.begin() + static_cast<std::ptrdiff_t>(i));
            kept_since_drop = 0;
            i = i > 0 ? i - 1 : 0;
        } else {
            ++kept_since_drop;
            ++i;
        }
    }
}

void tidyRing(Polygon& ring, const std::vector<TidyLine>& lines) {
    for (Vec2& point : ring) {
        for (const TidyLine& line : lines) {
            const double off = line.normal.dot(point) - line.offset_mm;
            if (std::abs(off) < kSnap_mm) point -= off * line.normal;
        }
    }
    dropIdle(ring);
}

}  // namespace

void tidy(Region& region, const std::vector<TidyLine>& lines) {
    tidyRing(region.outline, lines);
    for (Polygon& hole : region.holes) tidyRing(hole, lines);
}

}  // namespace tinwright
