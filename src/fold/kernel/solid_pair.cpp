// SPDX-License-Identifier: GPL-3.0-or-later
#include "kernel/solid_pair.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "kernel/gap_bound.h"

namespace tinwright {

namespace {

constexpr double kNeverMeets = std::numeric_limits<double>::infinity();
constexpr double kResolution_rad = 2e-4;
constexpr int kMaxGapSpans = 2000;
constexpr double kClearByFaces_mm = 1.0;

// Gaps of two prisms along the axes of the separating axis theorem, over a span of angles.
class PrismGaps {
public:
    PrismGaps(const SeenSolid& moving, const Solid& held, const Motion& motion)
        : moving_(moving),
          held_(held),
          centre_(motion.centre()),
          x_gap_(std::max(held.x_lo_mm() - moving.solid->x_hi_mm(), moving.solid->x_lo_mm() - held.x_hi_mm())),
          planar_(held.uniform() && moving.solid->uniform()) {}

    [[nodiscard]] double xGap() const { return x_gap_; }

    // The largest gap along any axis; stops at the first that exceeds `enough`.
    double over(const Placing& placing, double enough) {
        const double in_section = spanGap(*moving_.section, placing, held_.section(), centre_, enough, hint_);
        const double best = std::max(x_gap_, in_section);
        if (planar_ || best > enough) return best;  // two prisms along x: the section and x are all the axes there are
        return inSpace(placing, enough, best);
    }

private:
    double inSpace(const Placing& placing, double enough, double best) {
        if (moving_faces_.empty()) prepare();
        turned_.start(placing.turn);
        for (const Vec3& corner : moving_.solid->corners())
            turned_.add(yz(corner) - centre_ + placing.shift, corner.x());
        for (std::size_t i = 0; i < held_faces_.size() && best <= enough; ++i) {
            const Vec3& normal = held_faces_[i].normal;
            best = std::max(best, alongStill(normal, held_faces_[i].offset - yz(normal).dot(centre_), placing, best));
        }
        if (best > enough) return best;
        turned_back_.start(placing.turn.reversed());
        for (const Vec3& corner : held_.corners()) turned_back_.add(yz(corner) - centre_, corner.x());
        for (std::size_t i = 0; i < moving_faces_.size() && best <= enough; ++i) {
            best = std::max(best, alongTurning(moving_faces_[i], placing, best));
        }
        // Edge against edge only tells more where the others tell little; any set of axes gives a sound bound.
        return best > enough || best > kClearByFaces_mm ? best : std::max(best, alongCrossings(placing, enough, best));
    }

    void prepare() {
        moving_faces_ = moving_.solid->faces();
        held_faces_ = held_.faces();
        moving_edges_ = moving_.solid->edgeDirections();
        held_edges_ = held_.edgeDirections();
    }

    [[nodiscard]] double heldReach(const Vec3& normal) const {
        double reach = -kNeverMeets;
        for (const Vec3& q : held_.corners()) reach = std::max(reach, normal.dot(q));
        return reach - yz(normal).dot(centre_);
    }

    // An axis that stands still: any such axis may be used for a whole span. Not told exactly when it is no more than
    // `beat`.
    [[nodiscard]] double alongStill(const Vec3& n, double reach, const Placing& placing, double beat) const {
        const double most = reach + placing.stray.radius_mm * yz(n).norm();
        return turned_.least(yz(n), beat + most, n.x()) - most;
    }

    [[nodiscard]] double alongTurning(const Solid::Face& face, const Placing& placing, double beat) const {
        const Vec2 m = yz(face.normal);
        const double most = face.offset - m.dot(centre_) + m.dot(placing.shift) + placing.stray.along(m);
        return turned_back_.least(m, beat + most, face.normal.x()) - most;
    }

    // Edge against edge: the axes halfway through the turn, used as axes that stand still.
    [[nodiscard]] double alongCrossings(const Placing& placing, double enough, double best) const {
        const double cos_mid = placing.turn.cos_from + placing.turn.cos_to;
        const double sin_mid = placing.turn.sin_from + placing.turn.sin_to;
        const double length_mid = std::hypot(cos_mid, sin_mid);
        for (const Vec3& direction : moving_edges_) {
            const Vec2 turned = turnedUp(yz(direction), cos_mid / length_mid, sin_mid / length_mid);
            for (const Vec3& other : held_edges_) {
                Vec3 axis = Vec3(direction.x(), turned.x(), turned.y()).cross(other);
                const double length = axis.norm();
                if (length < 1e-9) continue;
                axis /= length;
                for (const Vec3& way : {axis, Vec3(-axis)})
                    best = std::max(best, alongStill(way, heldReach(way), placing, best));
                if (best > enough) return best;
            }
        }
        return best;
    }

    const SeenSolid& moving_;
    const Solid& held_;
    Vec2 centre_;
    double x_gap_;
    bool planar_;
    std::vector<Solid::Face> moving_faces_, held_faces_;  // made when the section alone does not tell them apart
    std::vector<Vec3> moving_edges_, held_edges_;
    TurnedCorners turned_, turned_back_;
    AxisHint hint_;
};

class PairSweep {
public:
    PairSweep(PrismGaps& gaps) : gaps_(gaps) {}

    PairVerdict verdict(const MotionSpan& whole) {
        visit(whole);
        return verdict_;
    }

    bool beyond(const MotionSpan& span, double margin_mm) {
        const double need = margin_mm + kRounding_mm;
        if (gaps_.over(span.all(), need) > need) return true;
        if (span.half_rad() < kResolution_rad || ++spans_ > kMaxGapSpans ||
            gaps_.over(span.atMiddle().all(), need) <= need)
            return false;
        return beyond(span.firstHalf(), margin_mm) && beyond(span.secondHalf(), margin_mm);
    }

private:
    void visit(const MotionSpan& span) {
        if (verdict_.hit) return;
        const double need = kRounding_mm - kContactTolerance_mm;
        if (gaps_.over(span.all(), need) > need) return;
        const double depth = -gaps_.over(span.atMiddle().middleOne(), 0) - span.mid().spread_mm;
        if (depth > kContactTolerance_mm + kRounding_mm) {
            verdict_ = {false, true, span.mid().angle_rad, depth};
        } else if (span.half_rad() < kResolution_rad || ++spans_ > kMaxGapSpans) {
            verdict_.clear = false;
        } else {
            visit(span.firstHalf());
            visit(span.secondHalf());
        }
    }

    PrismGaps& gaps_;
    PairVerdict verdict_;
    int spans_ = 0;
};

bool apart(const SeenSolid& moving, const Solid& held, const Motion& motion, double margin_mm) {
    const RadiusRange ring = radiusRange(held.section().points(), motion.centre());
    const double reach = margin_mm + moving.reach_mm;
    return moving.ring.least_mm - reach > ring.most_mm || ring.least_mm - reach > moving.ring.most_mm;
}

}  // namespace

PairVerdict sweepPair(const SeenSolid& moving, const Solid& held, const Motion& motion) {
    PrismGaps gaps(moving, held, motion);
    // Nothing moves along x, whatever the motion: no slack is needed there.
    if (gaps.xGap() > kRounding_mm - kContactTolerance_mm || apart(moving, held, motion, 0)) return {};
    return PairSweep(gaps).verdict(MotionSpan(motion));
}

bool staysBeyond(const SeenSolid& moving, const Solid& held, const Motion& motion, double margin_mm) {
    PrismGaps gaps(moving, held, motion);
    if (gaps.xGap() > margin_mm || apart(moving, held, motion, margin_mm)) return true;
    return PairSweep(gaps).beyond(MotionSpan(motion), margin_mm);
}

GapBound leastPairGap(const SeenSolid& moving, const Solid& held, const Motion& motion, double cap_mm,
                      double within_mm) {
    PrismGaps gaps(moving, held, motion);
    if (gaps.xGap() > cap_mm || apart(moving, held, motion, cap_mm)) return {cap_mm, 0};
    const auto gapOver = [&](const MotionSpan& span) { return gaps.over(span.all(), cap_mm + 1); };
    return GapBoundSearch(motion, cap_mm, gapOver, within_mm).run();
}

double restGap_mm(const Solid& a, const Solid& b, double enough_mm) {
    static const Motion kStill = Motion::still();
    const double along = std::max(b.x_lo_mm() - a.x_hi_mm(), a.x_lo_mm() - b.x_hi_mm());
    if (along > enough_mm) return along;
    const SeenSolid seen(a, kStill);
    return PrismGaps(seen, b, kStill).over(MotionSpan(kStill).all(), enough_mm);
}

bool liesBeyond(const Solid& a, const Solid& b, double margin_mm) { return restGap_mm(a, b, margin_mm) > margin_mm; }

}  // namespace tinwright
