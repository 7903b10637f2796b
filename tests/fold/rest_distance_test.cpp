// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <catch2/catch.hpp>

#include "kernel/rest_distance.h"
#include "kernel/solid_pair.h"
#include "random_states.h"

namespace tinwright {

namespace {

using random_states::Dice;

Solid block(const Vec3& lo, const Vec3& size, const Eigen::Isometry3d& pose = Eigen::Isometry3d::Identity()) {
    const Polygon base{{lo.x(), lo.y()},
                       {lo.x() + size.x(), lo.y()},
                       {lo.x() + size.x(), lo.y() + size.y()},
                       {lo.x(), lo.y() + size.y()}};
    return Solid(prismOf(base, lo.z(), lo.z() + size.z()), pose);
}

// Another route to the same number, from above: the shortest vector between points of two hulls, walked to corner by
// corner (Gilbert 1966, from memory).
double walkedDistance_mm(const Solid& a, const Solid& b) {
    Vec3 between = a.corners()[0] - b.corners()[0];
    for (int step = 0; step < 20000; ++step) {
        const auto furthest = [&](const std::vector<Vec3>& corners, const Vec3& way) {
            return *std::max_element(corners.begin(), corners.end(),
                                     [&](const Vec3& one, const Vec3& other) { return one.dot(way) < other.dot(way); });
        };
        const Vec3 corner = furthest(a.corners(), -between) - furthest(b.corners(), between);
        const Vec3 way = corner - between;
        const double length = way.squaredNorm();
        if (length <= 0) break;
        const double share = std::clamp(-between.dot(way) / length, 0.0, 1.0);
        if (share <= 0) break;
        between += share * way;
    }
    return between.norm();
}

}  // namespace

TEST_CASE("solids that lie apart: by a face, an edge, a corner") {
    const Solid one = block({0, 0, 0}, {10, 10, 10});
    CHECK(restDistance_mm(one, block({2, 2, 10.3}, {4, 4, 4}), 5) == Approx(0.3));
    CHECK(restDistance_mm(one, block({2, 10.3, 10.4}, {4, 4, 4}), 5) == Approx(0.5));
    CHECK(restDistance_mm(one, block({10.2, 10.3, 10.6}, {4, 4, 4}), 5) == Approx(0.7));
    CHECK(restDistance_mm(one, block({5, 5, 5}, {4, 4, 4}), 5) == 0);
    CHECK(restDistance_mm(one, block({20, 0, 0}, {4, 4, 4}), 5) > 5);
}

TEST_CASE(
    "distances of turned solids are those that walking to the nearest points finds, and never under what separating "
    "axes prove") {
    Dice dice(20261126);
    int apart = 0;
    for (int i = 0; i < 300; ++i) {
        Eigen::Isometry3d pose = Eigen::Isometry3d::Identity();
        pose.linear() = Eigen::Quaterniond(Eigen::Vector4d(dice.between(-1, 1), dice.between(-1, 1),
                                                           dice.between(-1, 1), dice.between(-1, 1))
                                               .normalized())
                            .toRotationMatrix();
        pose.translation() = Vec3(dice.between(-25, 25), dice.between(-25, 25), dice.between(-25, 25));
        const Solid one = block({-5, -4, -1}, {10, 8, 2});
        const Solid other = block({-6, -3, -1}, {12, 6, 2}, pose);
        const double told_mm = restDistance_mm(one, other, 100);
        INFO("pair " << i);
        CHECK(told_mm >= restGap_mm(one, other, 100) - 1e-9);
        CHECK(told_mm == Approx(walkedDistance_mm(one, other)).margin(0.03));
        apart += told_mm > 0 ? 1 : 0;
    }
    CHECK(apart > 200);
}

}  // namespace tinwright
