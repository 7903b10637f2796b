// SPDX-License-Identifier: GPL-3.0-or-later
// Leaving out steps at which two boxes are far apart must not lose a meeting.
#include <catch2/catch.hpp>

#include <random>

#include "solids/bodies.h"
#include "solids/inset.h"
#include "solids/motion.h"
#include "solids/track.h"

using namespace tinwright;
using namespace tinwright::replay;

namespace {

double uniform(std::mt19937& random, double lo, double hi) {
    return lo + (hi - lo) * (static_cast<double>(random()) / 4294967296.0);
}

Solid randomPrism(std::mt19937& random, double size) {
    std::vector<Vec2> points;
    for (int i = 0; i < 6; ++i) points.emplace_back(uniform(random, -size, size), uniform(random, -size, size));
    Rigid frame = Rigid::Identity();
    frame.translate(Vec3(uniform(random, -60, 60), uniform(random, -60, 60), uniform(random, -60, 60)));
    frame.rotate(
        Eigen::AngleAxisd(uniform(random, 0, 6),
                          Vec3(uniform(random, 0.1, 1), uniform(random, 0, 1), uniform(random, 0, 1)).normalized()));
    return prism(hull(std::move(points)), 0, uniform(random, 0.5, 20), frame);
}

}  // namespace

TEST_CASE("steps left out lose no meeting") {
    const std::uint32_t seed = 7;
    INFO("seed " << seed);
    std::mt19937 random(seed);
    int meetings = 0;
    for (int round = 0; round < 2000; ++round) {
        const Bending stroke{uniform(random, 0, 4), 1.0, uniform(random, 0.1, 6), uniform(random, 0.1, 2.6)};
        const Motion& motion = kMotions[random() % 3];
        const std::size_t last = 60;
        const double step = stroke.set_rad / last;
        Track track{{}, stroke.centre().x(), stroke.centre().y(), step, step * movingRate_mm(stroke, 0)};
        for (std::size_t i = 0; i <= last; ++i)
            track.poses.push_back(movingAt(stroke, motion, step * static_cast<double>(i)));
        const Solid a = randomPrism(random, 30);
        const Solid b = randomPrism(random, 30);
        std::optional<std::size_t> slow;
        for (std::size_t i = 0; i <= last && !slow; ++i) {
            if (meet(a, track.poses[i], b, Rigid::Identity())) slow = i;
        }
        meetings += slow ? 1 : 0;
        REQUIRE(firstMeeting(a, track, b, still(), last) == slow);
    }
    CHECK(meetings > 200);
    CHECK(meetings < 1900);
}

TEST_CASE("a shrunk region is what lies deeper than the tolerance") {
    const Region slab{{Vec2(0, 0), Vec2(10, 0), Vec2(10, 10), Vec2(0, 10)},
                      {{Vec2(4, 4), Vec2(6, 4), Vec2(6, 6), Vec2(4, 6)}}};
    double area = 0;
    for (const Polygon& piece : shrunkPieces(slab, 0.5)) area += signedArea_mm2(piece);
    CHECK(area == Approx(81.0 - 9.0));  // the hole's corners are taken square
    CHECK(shrunkPieces({{Vec2(0, 0), Vec2(10, 0), Vec2(10, 0.9), Vec2(0, 0.9)}, {}}, 0.5).empty());
}

TEST_CASE("a grown section stays within its distance") {
    const Polygon square{Vec2(0, 0), Vec2(10, 0), Vec2(10, 10), Vec2(0, 10)};
    const double full = 100 + 4 * 10 * 2.0 + 3.14159265358979 * 4.0;
    CHECK(signedArea_mm2(grown(square, 2.0)) < full);
    CHECK(signedArea_mm2(grown(square, 2.0)) > 0.99 * full);
    for (const Vec2& corner : grown(square, 2.0)) {
        const Vec2 inside = corner.cwiseMax(Vec2(0, 0)).cwiseMin(Vec2(10, 10));
        CHECK((corner - inside).norm() <= 2.0 + 1e-12);
    }
}
