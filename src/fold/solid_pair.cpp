// SPDX-License-Identifier: GPL-3.0-or-later
#include "solid_pair.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "least_gap.h"

namespace tinwright {

namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();
constexpr double kResolution_rad = 2e-4;
constexpr int kMaxSpans = 2000;
constexpr double kClearByFaces_mm = 1.0;

Vec2 yz(const Vec3& v) { return Vec2(v.y(), v.z()); }

// Gaps of two prisms along the axes of the separating axis theorem, over a span of angles. Everything is relative
// to the centre of the motion.
class PrismGaps {
public:
    PrismGaps(const SeenSolid& moving, const Solid& held, const Motion& motion)
        : moving_(moving), held_(held), centre_(motion.centre()), held_section_(held.section().moved(-motion.centre())),
          x_gap_(std::max(held.x_lo_mm() - moving.solid->x_hi_mm(), moving.solid->x_lo_mm() - held.x_hi_mm())),
          planar_(held.uniform() && moving.solid->uniform()) {}

    [[nodiscard]] double xGap() const { return x_gap_; }

    // The largest gap along any axis; stops at the first that exceeds `enough`.
    double over(const MotionSpan& span, double enough) {
        double best = std::max(x_gap_, spanGap(moving_.relative, span.shift, held_section_, span.turn, enough, hint_));
        if (planar_ || best > enough) return best;  // two prisms along x: the section and x are all the axes there are
        for (const Solid::Face& face : held_.faces()) {
            best = std::max(best, alongStill(face.normal, span, heldReach(face.normal)));
            if (best > enough) return best;
        }
        for (const Solid::Face& face : moving_.solid->faces()) {
            best = std::max(best, alongTurning(face, span));
            if (best > enough) return best;
        }
        // Edge against edge only tells more where the others tell little; any set of axes gives a sound bound.
        return best > kClearByFaces_mm ? best : std::max(best, alongCrossings(span, enough));
    }

private:
    [[nodiscard]] double heldReach(const Vec3& normal) const {
        double reach = -kInfinity;
        for (const Vec3& q : held_.corners()) reach = std::max(reach, normal.dot(q));
        return reach - yz(normal).dot(centre_);
    }

    // An axis that stands still: any such axis may be used for a whole span.
    [[nodiscard]] double alongStill(const Vec3& n, const MotionSpan& span, double reach) const {
        double least = kInfinity;
        for (const Vec3& corner : moving_.solid->corners()) {
            const Vec2 p = yz(corner) - centre_ + span.shift;
            least = std::min(least, n.x() * corner.x() + span.turn.leastOf(n.y() * p.x() + n.z() * p.y(), n.y() * p.y() - n.z() * p.x()));
        }
        return least - reach;
    }

    [[nodiscard]] double alongTurning(const Solid::Face& face, const MotionSpan& span) const {
        const Vec2 m = yz(face.normal);
        double least = kInfinity;
        for (const Vec3& corner : held_.corners()) {
            const Vec2 q = yz(corner) - centre_;
            least = std::min(least, face.normal.x() * corner.x() + span.turn.leastOf(m.dot(q), m.y() * q.x() - m.x() * q.y()));
        }
        return least - (face.offset - m.dot(centre_) + m.dot(span.shift));
    }

    // Edge against edge: the axes at the middle of the span, used as axes that stand still.
    [[nodiscard]] double alongCrossings(const MotionSpan& span, double enough) const {
        const double mid = span.turn.mid();
        double best = -kInfinity;
        for (const Vec3& direction : moving_.solid->edgeDirections()) {
            const Vec2 turned = turnedUp(yz(direction), std::cos(mid), std::sin(mid));
            for (const Vec3& other : held_.edgeDirections()) {
                Vec3 axis = Vec3(direction.x(), turned.x(), turned.y()).cross(other);
                const double length = axis.norm();
                if (length < 1e-9) continue;
                axis /= length;
                best = std::max({best, alongStill(axis, span, heldReach(axis)), alongStill(-axis, span, heldReach(-axis))});
                if (best > enough) return best;
            }
        }
        return best;
    }

    const SeenSolid& moving_;
    const Solid& held_;
    Vec2 centre_;
    Convex2 held_section_;
    double x_gap_;
    bool planar_;
    AxisHint hint_;
};

class PairSweep {
public:
    PairSweep(PrismGaps& gaps, const Motion& motion) : gaps_(gaps), motion_(motion) {}

    PairVerdict run() {
        visit(0, motion_.end_rad());
        return verdict_;
    }

private:
    void visit(double from, double to) {
        if (verdict_.hit) return;
        const MotionSpan span(motion_, from, to);
        const double need = span.slack_mm() + kRounding_mm - kContactTolerance_mm;
        if (gaps_.over(span, need) > need) return;
        const double mid = span.angles.mid();
        const MotionSpan point(motion_, mid, mid);
        const double depth = -gaps_.over(point, 0) - point.spread_mm;
        if (depth > kContactTolerance_mm + kRounding_mm) {
            verdict_ = {false, true, mid, depth};
        } else if (span.angles.half() < kResolution_rad || ++spans_ > kMaxSpans) {
            verdict_.clear = false;
        } else {
            visit(from, mid);
            visit(mid, to);
        }
    }

    PrismGaps& gaps_;
    const Motion& motion_;
    PairVerdict verdict_;
    int spans_ = 0;
};

bool apart(const SeenSolid& moving, const Solid& held, const Motion& motion, double margin_mm) {
    const RadiusRange ring = radiusRange(held.section().points(), motion.centre());
    const double reach = margin_mm + motion.shiftBound_mm();
    return moving.radius.least_mm - reach > ring.most_mm || ring.least_mm - reach > moving.radius.most_mm;
}

}  // namespace

PairVerdict sweepPair(const SeenSolid& moving, const Solid& held, const Motion& motion) {
    PrismGaps gaps(moving, held, motion);
    // Nothing moves along x, whatever the motion: no slack is needed there.
    if (gaps.xGap() > kRounding_mm - kContactTolerance_mm || apart(moving, held, motion, 0)) return {};
    return PairSweep(gaps, motion).run();
}

LeastGap leastPairGap(const SeenSolid& moving, const Solid& held, const Motion& motion, double cap_mm) {
    PrismGaps gaps(moving, held, motion);
    if (gaps.xGap() > cap_mm || apart(moving, held, motion, cap_mm)) return {cap_mm, 0};
    const auto gapOver = [&](const MotionSpan& span) { return gaps.over(span, cap_mm + span.slack_mm() + 1); };
    return LeastGapSearch(motion, cap_mm, gapOver).run();
}

double stillGap_mm(const Solid& a, const Solid& b) {
    const Motion motion = Motion::still();
    const SeenSolid seen(a, motion);
    PrismGaps gaps(seen, b, motion);
    return gaps.over(MotionSpan(motion, 0, 0), kInfinity);
}

}  // namespace tinwright
