// SPDX-License-Identifier: GPL-3.0-or-later
#include "planar_sweep.h"

#include <algorithm>
#include <limits>

namespace tinwright {

namespace {

// Along an edge normal n of the polygon that stands still: n·R(a)p = (n·p) cos a + (n_y p_z - n_z p_y) sin a.
double gapAlongStill(const Convex2& turning, const Vec2& shift, const Convex2& still, std::size_t i, const AngleSpan& span) {
    const Vec2& n = still.normal(i);
    double least = std::numeric_limits<double>::infinity();
    for (const Vec2& corner : turning.points()) {
        const Vec2 p = corner + shift;
        least = std::min(least, span.leastOf(n.dot(p), n.x() * p.y() - n.y() * p.x()));
    }
    return least - still.offset(i);
}

// Along an edge normal m that turns with its polygon: R(a)m·q = (m·q) cos a + (m_z q_y - m_y q_z) sin a.
double gapAlongTurning(const Convex2& turning, const Vec2& shift, const Convex2& still, std::size_t i, const AngleSpan& span) {
    const Vec2& m = turning.normal(i);
    double least = std::numeric_limits<double>::infinity();
    for (const Vec2& q : still.points()) {
        least = std::min(least, span.leastOf(m.dot(q), m.y() * q.x() - m.x() * q.y()));
    }
    return least - turning.offset(i) - m.dot(shift);
}

}  // namespace

double spanGap(const Convex2& turning, const Vec2& shift, const Convex2& still, const AngleSpan& span, double enough,
               AxisHint& hint) {
    const std::size_t count = still.size() + turning.size();
    const auto gapAlong = [&](std::size_t axis) {
        return axis < still.size() ? gapAlongStill(turning, shift, still, axis, span)
                                   : gapAlongTurning(turning, shift, still, axis - still.size(), span);
    };
    const std::size_t first = hint.index < count ? hint.index : 0;
    double best = gapAlong(first);
    for (std::size_t axis = 0; axis < count && best <= enough; ++axis) {
        if (axis == first) continue;
        const double gap = gapAlong(axis);
        if (gap > best) {
            best = gap;
            hint.index = axis;
        }
    }
    return best;
}

}  // namespace tinwright
