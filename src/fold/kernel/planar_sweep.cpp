// SPDX-License-Identifier: GPL-3.0-or-later
#include "kernel/planar_sweep.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "kernel/swing.h"

namespace tinwright {

void TurnedCorners::add(const Vec2& p, double x) {
    const Vec2 from = turnedUp(p, span_.cos_from, span_.sin_from);
    if (is_point_) {
        corners_.push_back({from, from, 0, x});
    } else {
        corners_.push_back({from, turnedUp(p, span_.cos_to, span_.sin_to), p.norm(), x});
    }
}

// Along n a turning point moves as a sinusoid, whose least value lies within the span exactly when it falls at the
// start and rises at the end (the span is no longer than half a turn). d/da of (y, z) is (z, -y).
double TurnedCorners::least(const Vec2& n, double give_up, double nx) const {
    double least = std::numeric_limits<double>::infinity();
    if (is_point_) {
        for (const Corner& corner : corners_) {
            least = std::min(least, nx * corner.x + n.dot(corner.from));
            if (least <= give_up) break;
        }
        return least;
    }
    const double length = n.norm();
    for (const Corner& corner : corners_) {
        const bool falls = n.x() * corner.from.y() - n.y() * corner.from.x() < 0;
        const bool rises = n.x() * corner.to.y() - n.y() * corner.to.x() > 0;
        const double value = falls && rises ? -corner.radius * length : std::min(n.dot(corner.from), n.dot(corner.to));
        least = std::min(least, nx * corner.x + value);
        if (least <= give_up) break;
    }
    return least;
}

namespace {

// The two polygons of one question, relative to the centre. Normals of the one that turns are asked of the other turned
// back.
class PolygonPair {
public:
    // Corners are turned for every question asked: they keep their memory.
    struct Scratch {
        TurnedCorners turned;
        TurnedCorners turned_back;
    };
    PolygonPair(const Convex2& turning, const Placing& placing, const Convex2& still, const Vec2& centre,
                Scratch& scratch)
        : turning_(turning),
          still_(still),
          centre_(centre),
          moved_(placing.shift - centre),
          placing_(placing),
          scratch_(scratch) {
        scratch_.turned.start(placing.turn);
        for (const Vec2& p : turning.points()) scratch_.turned.add(p + moved_);
    }

    [[nodiscard]] std::size_t axes() const { return still_.size() + turning_.size(); }

    // The gap along an axis; not told exactly when it is no more than `beat`.
    double gapAlong(std::size_t axis, double beat) {
        if (axis < still_.size()) {
            // The stray turns with the body: along a normal that stands still only its radius is known.
            const double reach = still_.offset(axis) - still_.normal(axis).dot(centre_) + placing_.stray.radius_mm;
            return scratch_.turned.least(still_.normal(axis), beat + reach) - reach;
        }
        const std::size_t i = axis - still_.size();
        const double reach =
            turning_.offset(i) + turning_.normal(i).dot(moved_) + placing_.stray.along(turning_.normal(i));
        return turnedBack().least(turning_.normal(i), beat + reach) - reach;
    }

private:
    const TurnedCorners& turnedBack() {
        if (!has_turned_back_) {
            has_turned_back_ = true;
            scratch_.turned_back.start(placing_.turn.reversed());
            for (const Vec2& q : still_.points()) scratch_.turned_back.add(q - centre_);
        }
        return scratch_.turned_back;
    }

    const Convex2& turning_;
    const Convex2& still_;
    Vec2 centre_;
    Vec2 moved_;
    const Placing& placing_;
    bool has_turned_back_ = false;
    Scratch& scratch_;
};

}  // namespace

double spanGap(const Convex2& turning, const Placing& placing, const Convex2& still, const Vec2& centre, double enough,
               AxisHint& hint) {
    static thread_local PolygonPair::Scratch scratch;
    PolygonPair pair(turning, placing, still, centre, scratch);
    const std::size_t first = hint.index < pair.axes() ? hint.index : 0;
    double best = pair.gapAlong(first, -std::numeric_limits<double>::infinity());
    for (std::size_t axis = 0; axis < pair.axes() && best <= enough; ++axis) {
        if (axis == first) continue;
        const double gap = pair.gapAlong(axis, best);
        if (gap > best) {
            best = gap;
            hint.index = axis;
        }
    }
    return best;
}

}  // namespace tinwright
