// SPDX-License-Identifier: GPL-3.0-or-later
// The collision library itself against a closed form, before anything relies on it.
#include <catch2/catch.hpp>

#include <random>

#include "fcl_bodies.h"

using namespace tinwright;

namespace {

double uniform(std::mt19937& random, double lo, double hi) {
    return lo + (hi - lo) * (static_cast<double>(random()) / 4294967296.0);
}

Polygon box(double w, double d) { return {Vec2(0, 0), Vec2(w, 0), Vec2(w, d), Vec2(0, d)}; }

// Least overlap over all candidate separating axes; negative when one separates. (The separating-axis theorem.)
double overlap(const ConvexPoints& a, const ConvexPoints& b, const std::vector<Eigen::Vector3d>& axes) {
    double least = 1e300;
    for (const Eigen::Vector3d& axis : axes) {
        if (axis.norm() < 1e-9) continue;
        const Eigen::Vector3d n = axis.normalized();
        double a0 = 1e300, a1 = -1e300, b0 = 1e300, b1 = -1e300;
        for (const auto& p : a) a0 = std::min(a0, n.dot(p)), a1 = std::max(a1, n.dot(p));
        for (const auto& p : b) b0 = std::min(b0, n.dot(p)), b1 = std::max(b1, n.dot(p));
        least = std::min({least, a1 - b0, b1 - a0});
    }
    return least;
}

}  // namespace

TEST_CASE("the collision library agrees with separating axes on boxes") {
    const std::uint32_t seed = 41;
    INFO("seed " << seed);
    std::mt19937 random(seed);
    int hits = 0;
    int compared = 0;
    for (int round = 0; round < 20000; ++round) {
        Eigen::Isometry3d pose = Eigen::Isometry3d::Identity();
        pose.translate(Eigen::Vector3d(uniform(random, -90, 90), uniform(random, -90, 90), uniform(random, -90, 90)));
        pose.rotate(Eigen::AngleAxisd(uniform(random, 0, 3),
                                      Eigen::Vector3d(uniform(random, 0, 1), uniform(random, 0, 1), 0.3).normalized()));
        const ConvexPoints a = fclPrism(box(80, 50), 0, 1);
        const ConvexPoints b =
            fclPrism(box(uniform(random, 1, 90), uniform(random, 1, 90)), 0, uniform(random, 0.5, 60), pose);
        std::vector<Eigen::Vector3d> axes;
        for (int i = 0; i < 3; ++i) {
            axes.push_back(Eigen::Vector3d::Unit(i));
            axes.push_back(pose.linear().col(i));
            for (int j = 0; j < 3; ++j) axes.push_back(Eigen::Vector3d::Unit(i).cross(pose.linear().col(j)));
        }
        const double depth = overlap(a, b, axes);
        if (std::abs(depth) < 1e-4) continue;  // touching: either answer will do
        ++compared;
        hits += depth > 0 ? 1 : 0;
        REQUIRE(fclHit(a, b) == (depth > 0));
    }
    CHECK(compared > 19900);
    CHECK(hits > 1000);
}

TEST_CASE("a shrunk polygon keeps its distance from every edge") {
    const Polygon small = fclShrunk(box(10, 4), 0.5);
    REQUIRE(small.size() == 4);
    CHECK(signedArea_mm2(small) == Approx(9.0 * 3.0));
    CHECK(fclShrunk(box(10, 4), 2.5).empty());
}

TEST_CASE("a section drawn along x lies in y and z") {
    const ConvexPoints points = fclPrism(box(10, 4), 100, 200, fclAlongX());
    for (const auto& p : points) {
        CHECK((p.x() == Approx(100) || p.x() == Approx(200)));
        CHECK(p.y() <= 10.0);
        CHECK(p.z() <= 4.0);
    }
}
