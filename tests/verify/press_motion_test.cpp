// SPDX-License-Identifier: GPL-3.0-or-later
// The stroke of a press brake as the replay moves things, against the machine model of src/fold/NOTES.md told another
// way: lengths of arc and of flat sheet laid off one by one, and shoulders that touch the sheet.
#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <random>

#include "machine/press_motion.h"

using namespace tinwright;
using replay::Bending;
using replay::Motion;
using replay::Rigid;

namespace {

double uniform(std::mt19937& random, double lo, double hi) {
    return lo + (hi - lo) * (static_cast<double>(random()) / 4294967296.0);
}

// A stroke in a V that takes it.
struct PressStroke {
    Bending stroke;
    Vee vee;
};

PressStroke randomStroke(std::mt19937& random) {
    Bending stroke;
    stroke.both_sides_move = true;
    stroke.thickness_mm = uniform(random, 0.5, 3);
    stroke.inside_radius_mm = uniform(random, 0.5, 4);
    stroke.allowance_mm = uniform(random, 0.5, 8);
    stroke.set_rad = uniform(random, 0.4, 2.2);
    const Angle vee_angle = Angle::radians(uniform(random, 0.2, 0.95 * (std::numbers::pi - stroke.set_rad)));
    return {stroke, {uniform(random, 6, 20) * stroke.thickness_mm, vee_angle, uniform(random, 0, 3)}};
}

Vec2 place(const Rigid& pose, const Vec2& point) {
    const Vec3 at = pose * Vec3(0, point.x(), point.y());
    return {at.y(), at.z()};
}

// Where a point of the front lies that is `out` in front of the strip's middle and `z` over the sheet's lower face,
// laid off along the sheet.
Vec2 laidOff(const Bending& stroke, double share, double angle_rad, double out, double z) {
    const double h = 0.5 * angle_rad;
    const double strip = 0.5 * stroke.allowance_mm;
    const double outer = stroke.inside_radius_mm + stroke.thickness_mm;
    const Vec2 along(-std::cos(h), std::sin(h));
    const Vec2 up(std::sin(h), std::cos(h));
    const auto onFlat = [&](double radius, double still_flat) -> Vec2 {
        return Vec2(0, radius) - radius * up + (still_flat + out - strip) * along + z * up;
    };
    // Rolled round the tip the strip has its radius at once, and is flat where it has not got to; curved evenly it has
    // a neutral radius of strip / h.
    const Vec2 rolled = onFlat(outer, strip * (1 - angle_rad / stroke.set_rad));
    const Vec2 curved = onFlat(outer + strip / h - 2 * strip / stroke.set_rad, 0);
    return (1 - share) * rolled + share * curved;
}

}  // namespace

TEST_CASE("both halves of an air bend lie where arc and flat sheet laid off put them") {
    std::mt19937 random(11);
    for (int round = 0; round < 2000; ++round) {
        const Bending stroke = randomStroke(random).stroke;
        const double a = uniform(random, 0.01, stroke.set_rad);
        const double out = 0.5 * stroke.allowance_mm + uniform(random, 0, 80);
        const double z = uniform(random, -30, 30);
        for (const Motion& motion : replay::kMotions) {
            const Rigid front = replay::movingAt(stroke, motion, a);
            const Vec2 truth = laidOff(stroke, motion.uniform_share, a, out, z);
            REQUIRE((place(front, Vec2(-out, z)) - truth).norm() < 1e-9);
            REQUIRE((place(replay::heldBeside(stroke, front), Vec2(out, z)) - Vec2(-truth.x(), truth.y())).norm() <
                    1e-9);
        }
    }
}

TEST_CASE("an air bend starts flat and ends the same whichever way it formed") {
    std::mt19937 random(12);
    for (int round = 0; round < 200; ++round) {
        const auto [stroke, vee] = randomStroke(random);
        for (const Motion& motion : replay::kMotions) {
            CHECK(replay::movingAt(stroke, motion, 0).matrix().isApprox(Eigen::Matrix4d::Identity(), 1e-12));
            CHECK(std::abs(replay::dieRise_mm(stroke, vee, motion, 0)) < 1e-9);
            CHECK(replay::movingAt(stroke, motion, stroke.set_rad)
                      .matrix()
                      .isApprox(replay::sprungTo(stroke, stroke.set_rad).matrix(), 1e-9));
            CHECK(replay::dieRise_mm(stroke, vee, motion, stroke.set_rad) ==
                  Approx(replay::dieRise_mm(stroke, vee, replay::kMotions[0], stroke.set_rad)));
        }
    }
}

TEST_CASE("the sheet bears on the shoulders of the V, where it is said to") {
    std::mt19937 random(13);
    for (int round = 0; round < 2000; ++round) {
        const auto [stroke, vee] = randomStroke(random);
        const double a = uniform(random, 0.01, stroke.set_rad);
        const double s = vee.shoulder_radius_mm;
        // The arc touches the top and the flank, which leaves the corner half the V's angle from upright.
        const double half_rad = 0.5 * vee.angle.rad();
        for (const Motion& motion : replay::kMotions) {
            const double top = replay::dieRise_mm(stroke, vee, motion, a);
            const Vec2 corner(-0.5 * vee.opening_mm, top);
            const Vec2 flank(std::sin(half_rad), -std::cos(half_rad));
            const double off = s * std::tan(0.5 * (0.5 * std::numbers::pi - half_rad));
            const Vec2 centre = corner + Vec2(-off, -s);
            const Vec2 from_corner = centre - corner;
            REQUIRE(std::abs(from_corner.x() * flank.y() - from_corner.y() * flank.x()) == Approx(s).margin(1e-9));

            const Rigid front = replay::movingAt(stroke, motion, a);
            const Vec2 foot = place(front, Vec2(-replay::bearingPlace_mm(stroke, vee, motion, a), 0));
            const Vec2 along = place(front, Vec2(-1, 0)) - place(front, Vec2(0, 0));
            CHECK((foot - centre).norm() == Approx(s).margin(1e-9));
            CHECK(std::abs((foot - centre).dot(along)) < 1e-9);
            CHECK(foot.y() > centre.y() - 1e-9);
        }
    }
}

TEST_CASE("no point of a half is faster than its bound") {
    std::mt19937 random(14);
    for (int round = 0; round < 50; ++round) {
        const Bending stroke = randomStroke(random).stroke;
        for (const Motion& motion : replay::kMotions) {
            for (double a = 0; a + 0.001 < stroke.set_rad; a += 0.01) {
                for (const Vec2& point : {Vec2(-30, 4), Vec2(0, 1), Vec2(-3, 60)}) {
                    const Vec2 moved = place(replay::movingAt(stroke, motion, a + 0.001), point) -
                                       place(replay::movingAt(stroke, motion, a), point);
                    CHECK(moved.norm() <= 0.001 * replay::movingRate_mm(stroke, (point - stroke.centre()).norm()));
                }
            }
        }
    }
}
