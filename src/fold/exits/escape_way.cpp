// SPDX-License-Identifier: GPL-3.0-or-later
#include "exits/escape_way.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "kernel/swing.h"

namespace tinwright {

namespace {

constexpr double kRadiansPerDegree = std::numbers::pi / 180.0;
constexpr int kHalvings = 10;

Vec2 tilted(const Vec2& p, double tilt_rad) { return turnedUp(p, std::cos(tilt_rad), -std::sin(tilt_rad)); }

PlanarPose mix(const PlanarPose& a, const PlanarPose& b, double share) {
    const auto between = [&](double from, double to) { return from + share * (to - from); };
    return {between(a.y_mm, b.y_mm), between(a.z_mm, b.z_mm), between(a.tilt_deg, b.tilt_deg),
            between(a.raised_mm, b.raised_mm)};
}

// One half of a way, seen from its middle: a point p of the body goes from there by no more than half of `go` + turn x
// p either way, and what is left is an eighth of its distance times the turn squared.
class Stretch {
public:
    Stretch(const PlanarPose& from, const PlanarPose& to)
        : middle_(mix(from, to, 0.5)),
          go_(to.y_mm - from.y_mm, to.z_mm - from.z_mm),
          rise_mm_(to.raised_mm - from.raised_mm),
          turn_rad_((to.tilt_deg - from.tilt_deg) * kRadiansPerDegree) {}

    [[nodiscard]] bool isFree(const EscapePair& pair) const {
        place(pair);
        const Vec2 up(0, pair.rises ? middle_.raised_mm : 0);
        for (std::size_t i = 0; i < pair.still.size(); ++i) {
            const Vec2& n = pair.still.normal(i);
            if (leastAlong(n) > pair.still.offset(i) + n.dot(up)) return true;
        }
        for (std::size_t i = 0; i < pair.moving.size(); ++i) {
            const Vec2 n = -tilted(pair.moving.normal(i), middle_.tilt_deg * kRadiansPerDegree);
            double most = -std::numeric_limits<double>::infinity();
            for (const Vec2& p : pair.still.points()) most = std::max(most, n.dot(p + up));
            if (leastAlong(n) > most) return true;
        }
        return false;
    }

private:
    struct Corner {
        Vec2 at;
        Vec2 half_go;
    };
    void place(const EscapePair& pair) const {
        corners_.clear();
        stray_mm_ = 0;
        const Vec2 go = go_ - Vec2(0, pair.rises ? rise_mm_ : 0);
        for (const Vec2& p : pair.moving.points()) {
            const Vec2 arm = tilted(p, middle_.tilt_deg * kRadiansPerDegree);
            corners_.push_back(
                {arm + Vec2(middle_.y_mm, middle_.z_mm), 0.5 * (go + turn_rad_ * Vec2(-arm.y(), arm.x()))});
            stray_mm_ = std::max(stray_mm_, p.norm() * turn_rad_ * turn_rad_ / 8);
        }
    }
    [[nodiscard]] double leastAlong(const Vec2& n) const {
        double least = std::numeric_limits<double>::infinity();
        for (const Corner& corner : corners_)
            least = std::min(least, n.dot(corner.at) - std::abs(n.dot(corner.half_go)));
        return least - stray_mm_;
    }
    PlanarPose middle_;
    Vec2 go_;
    double rise_mm_;
    double turn_rad_;
    mutable std::vector<Corner> corners_;  // of the pair that is asked about
    mutable double stray_mm_ = 0;
};

bool isFree(const std::vector<const EscapePair*>& pairs, const PlanarPose& from, const PlanarPose& to, int halvings) {
    const Stretch stretch(from, to);
    std::vector<const EscapePair*> left;
    for (const EscapePair* pair : pairs) {
        if (!stretch.isFree(*pair)) left.push_back(pair);
    }
    if (left.empty()) return true;
    if (halvings == 0) return false;
    const PlanarPose middle = mix(from, to, 0.5);
    return isFree(left, from, middle, halvings - 1) && isFree(left, middle, to, halvings - 1);
}

// Offsets are told for the point that was at y = z = 0, not for the pivot.
PlanarPose poseOf(const EscapePlace& place, const Vec2& pivot) {
    const Vec2 offset = pivot + Vec2(place.y_mm, place.z_mm) - tilted(pivot, place.tilt_deg * kRadiansPerDegree);
    return {offset.x(), offset.y(), place.tilt_deg, place.raised_mm()};
}

}  // namespace

bool isFreeBetween(const std::vector<EscapePair>& pairs, const PlanarPose& from, const PlanarPose& to) {
    std::vector<const EscapePair*> all;
    for (const EscapePair& pair : pairs) all.push_back(&pair);
    return isFree(all, from, to, kHalvings);
}

// As far as the way goes straight from each place: half of what is left is tried where all of it does not go.
std::vector<PlanarPose> straightened(const std::vector<EscapePair>& pairs, const Vec2& pivot,
                                     const std::vector<EscapePlace>& places) {
    std::vector<PlanarPose> way;
    for (const EscapePlace& place : places) way.push_back(poseOf(place, pivot));
    std::vector<PlanarPose> kept;
    const std::size_t last = way.size() - 2;  // from there it is straight out
    for (std::size_t at = 0; at < last;) {
        std::size_t next = last;
        while (next > at + 1 && !isFreeBetween(pairs, way[at], way[next])) next = at + (next - at) / 2;
        kept.push_back(way[next]);
        at = next;
    }
    kept.push_back(way.back());
    return kept;
}

}  // namespace tinwright
