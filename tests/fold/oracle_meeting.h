// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Two bodies on their way past one another, looked at angle by angle.

#include <algorithm>
#include <array>
#include <optional>

#include <fcl/geometry/shape/box.h>

#include "../verify/fcl_bodies.h"

namespace tinwright::oracle {

/// How far a body reaches along x and along eight directions square to it: a cheap lower bound of distances.
class Slabs {
public:
    explicit Slabs(const ConvexPoints& points);
    [[nodiscard]] bool apartInX(const Slabs& other) const {
        return lo_[kDirections] > other.hi_[kDirections] || other.lo_[kDirections] > hi_[kDirections];
    }
    [[nodiscard]] double gapTo(const Slabs& other) const;

private:
    static constexpr std::size_t kDirections = 8;
    static const Vec2& direction(std::size_t i);
    void take(std::size_t i, double value);
    std::array<double, kDirections + 1> lo_, hi_;
};

/// The library's body of a set of corners, made when it is first asked for: making one takes longer than asking.
class Hull {
public:
    explicit Hull(const ConvexPoints& points) : points_(points) {}
    const fcl::Convex<double>& body();

private:
    const ConvexPoints& points_;
    std::optional<fcl::Convex<double>> body_;
};

[[nodiscard]] bool hullsMeet(Hull& a, const Eigen::Isometry3d& pose_a, Hull& b, const Eigen::Isometry3d& pose_b);
/// A prism of a rectangle, by its eight corners.
[[nodiscard]] bool meetsBlock(Hull& hull, const Eigen::Isometry3d& pose, const ConvexPoints& block);

/// Of two angles the earlier; negative: none.
[[nodiscard]] inline double earlier(double a, double b) { return b >= 0 && (a < 0 || b < a) ? b : a; }

/// Two bodies told by their corners at an angle, and how fast a corner goes at most: the first angle looked at where
/// they meet. Nothing moves along x, so bodies apart there are apart.
template <class One, class Other, class Hit>
double firstMeeting(const One& one, double one_speed, const Other& other, double other_speed, double end,
                    double step_rad, const Hit& hit) {
    for (double angle = 0;;) {
        const ConvexPoints& a = one(angle);
        const ConvexPoints& b = other(angle);
        double step = step_rad;
        if (!a.empty() && !b.empty()) {
            const Slabs here(a);
            const Slabs there(b);
            if (here.apartInX(there)) return -1;
            const double gap = here.gapTo(there);
            if (gap <= 0 && hit(angle, a, b)) return angle;
            step = std::max(step, gap / (one_speed + other_speed));
        }
        if (angle >= end) return -1;
        angle = std::min(end, angle + step);
    }
}

/// The same of two rigid bodies whose poses are functions of the angle.
template <class PoseOne, class PoseOther>
double firstMeetingOf(const ConvexPoints& one, const PoseOne& pose_one, double one_speed, const ConvexPoints& other,
                      const PoseOther& pose_other, double other_speed, double end, double step_rad) {
    Hull first(one);
    Hull second(other);
    const auto hit = [&](double angle, const ConvexPoints&, const ConvexPoints&) {
        return hullsMeet(first, pose_one(angle), second, pose_other(angle));
    };
    return firstMeeting([&](double angle) { return fclMoved(one, pose_one(angle)); }, one_speed,
                        [&](double angle) { return fclMoved(other, pose_other(angle)); }, other_speed, end, step_rad,
                        hit);
}

}  // namespace tinwright::oracle
