// SPDX-License-Identifier: GPL-3.0-or-later
// The folded part has the dimensions that the recipe asked for, by plane geometry that knows nothing of strips and
// setbacks.
#include <catch2/catch.hpp>

#include <cmath>
#include <random>

#include <tinwright/part/model/pose.h>

#include "recipes.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

constexpr double kTolerance_mm = 1e-9;

/// A face of a folded panel as a plane: normal · p = offset.
struct Plane {
    Vec3 normal;
    double offset;
};

// The drawn face (z = t) or the back face (z = 0) of a panel.
Plane faceOf(const Part& part, const std::string& name, bool drawn) {
    const Rigid pose = baseFromPanels(part, allFormed(part))[indexOf(part, name)];
    const Vec2 at = panelOf(part, name).region.outline.front();
    const Vec3 point = pose * Vec3(at.x(), at.y(), drawn ? part.thickness_mm : 0);
    const Vec3 normal = pose.linear().col(2);
    return {normal, normal.dot(point)};
}

Vec3 folded(const Part& part, const std::string& panel, std::size_t corner, double z) {
    const Vec2 at = panelOf(part, panel).region.outline[corner];
    return baseFromPanels(part, allFormed(part))[indexOf(part, panel)] * Vec3(at.x(), at.y(), z);
}

// Along y on the plane z = height (the base's face): where another plane meets it.
double meetsBaseFaceAt(const Plane& plane, double height) {
    return (plane.offset - plane.normal.z() * height) / plane.normal.y();
}

struct Wish {
    double t, r, angle, web, leg;
    AllowanceChoice rule;
    bool up;
    Measured measured;
};

Wish randomWish(std::mt19937& random) {
    const auto in = [&](double lo, double hi) { return std::uniform_real_distribution<double>(lo, hi)(random); };
    Wish wish;
    wish.t = in(0.4, 4);
    wish.r = in(0.1, 3) * wish.t;
    wish.angle = std::uniform_int_distribution<int>(0, 2)(random) == 0 ? 90 : in(5, 90);
    wish.web = in(60, 400);
    wish.leg = in(25, 200);
    const int rule = std::uniform_int_distribution<int>(0, 2)(random);
    wish.rule = {static_cast<AllowanceRule>(rule), in(0.2, 0.5)};
    wish.up = std::uniform_int_distribution<int>(0, 1)(random) == 1;
    wish.measured = std::uniform_int_distribution<int>(0, 1)(random) == 1 ? Measured::kInside : Measured::kOutside;
    return wish;
}

Part channelOf(const Wish& wish) {
    Recipe recipe = plate(100, wish.web, wish.t, wish.r, wish.measured);
    recipe.allowance = wish.rule;
    addFlange(recipe, "a", "base.front", wish.leg, wish.angle, wish.up);
    addFlange(recipe, "b", "base.back", wish.leg, wish.angle, wish.up);
    const auto part = develop(recipe);
    INFO(textOf(part.issues()));
    REQUIRE(part.ok());
    return part.value();
}

}  // namespace

TEST_CASE("web dimension of random channels comes back to 1e-9 mm between apexes") {
    const unsigned seed = 20240611;
    std::mt19937 random(seed);
    for (int i = 0; i < 400; ++i) {
        const Wish wish = randomWish(random);
        INFO("seed " << seed << " case " << i << ": t " << wish.t << " r " << wish.r << " angle " << wish.angle);
        const Part part = channelOf(wish);
        // The inside of a bend up is the drawn face, of a bend down the back face.
        const bool drawn = (wish.measured == Measured::kInside) == wish.up;
        const double height = drawn ? wish.t : 0;
        const double front = meetsBaseFaceAt(faceOf(part, "a", drawn), height);
        const double back = meetsBaseFaceAt(faceOf(part, "b", drawn), height);
        CHECK(std::abs(back - front - wish.web) < kTolerance_mm);
    }
}

TEST_CASE("leg dimension of random channels comes back to 1e-9 mm from apex to far edge") {
    const unsigned seed = 77;
    std::mt19937 random(seed);
    for (int i = 0; i < 400; ++i) {
        const Wish wish = randomWish(random);
        INFO("seed " << seed << " case " << i);
        const Part part = channelOf(wish);
        const bool drawn = (wish.measured == Measured::kInside) == wish.up;
        const double height = drawn ? wish.t : 0;
        const double apex_y = meetsBaseFaceAt(faceOf(part, "b", drawn), height);
        const Vec3 far = folded(part, "b", 2, height);
        CHECK(std::abs(Vec3(0, far.y() - apex_y, far.z() - height).norm() - wish.leg) < kTolerance_mm);
    }
}

TEST_CASE("past 90 degrees the overall outside size comes back: the part's extreme planes") {
    const unsigned seed = 5;
    std::mt19937 random(seed);
    for (int i = 0; i < 200; ++i) {
        Wish wish = randomWish(random);
        wish.angle = std::uniform_real_distribution<double>(90.5, 150)(random);
        wish.leg = std::min(wish.leg, 0.4 * wish.web);
        wish.measured = Measured::kOutside;
        INFO("seed " << seed << " case " << i << " angle " << wish.angle);
        const Part part = channelOf(wish);
        // Outer arcs: the bend's axis stands r + t from the outer surface; its y is the tangent line's.
        const Bend& front = part.bends[0];
        const double front_axis = front.origin.y() - front.toward_child.y() * 0.5 * front.allowance_mm;
        const Bend& back = part.bends[1];
        const double back_axis = back.origin.y() - back.toward_child.y() * 0.5 * back.allowance_mm;
        CHECK(std::abs((back_axis - front_axis) + 2 * (wish.r + wish.t) - wish.web) < kTolerance_mm);
    }
}

TEST_CASE("a folded box: inside width between its walls, walls upright, tops level") {
    Recipe recipe = plate(200, 150, 1.5, 1, Measured::kInside);
    for (const char* side : {"front", "right", "back", "left"})
        addFlange(recipe, side, std::string("base.") + side, 50);
    const Part part = develop(recipe).value();
    const Plane left = faceOf(part, "left", true), right = faceOf(part, "right", true);
    CHECK((left.normal - Vec3::UnitX()).norm() < 1e-12);
    CHECK((right.normal + Vec3::UnitX()).norm() < 1e-12);
    CHECK(std::abs(-right.offset - left.offset - 200) < kTolerance_mm);
    const Plane front = faceOf(part, "front", true), back = faceOf(part, "back", true);
    CHECK(std::abs(-back.offset - front.offset - 150) < kTolerance_mm);
    // Inside height from the base's drawn face (z = t).
    for (const char* side : {"front", "right", "back", "left"})
        CHECK(std::abs(folded(part, side, 2, 0).z() - 1.5 - 50) < kTolerance_mm);
}

TEST_CASE("closed corners of a box: butt ends meet in a line, overlap is flush outside") {
    for (const CornerType type : {CornerType::kButt, CornerType::kOverlap}) {
        Recipe recipe = plate(120, 80, 2, 3, Measured::kOutside);
        addFlange(recipe, "front", "base.front", 30);
        addFlange(recipe, "right", "base.right", 30);
        Corner corner;
        corner.flange[0] = "right";
        corner.flange[1] = "front";
        corner.type = type;
        corner.over = "front";
        recipe.corners.push_back(corner);
        const auto developed = develop(recipe);
        INFO(textOf(developed.issues()));
        REQUIRE(developed.ok());
        const Part& part = developed.value();
        // Front's left end (seen with the base below) is the corner; its inner line at mid height.
        const Vec3 front_end = folded(part, "front", 0, 2);
        const Vec3 right_end = folded(part, "right", 1, 2);
        const double inside_x = -faceOf(part, "right", true).offset, outside_x = -faceOf(part, "right", false).offset;
        const double inside_y = faceOf(part, "front", true).offset;
        CHECK(std::abs(right_end.y() - inside_y) < kTolerance_mm);
        CHECK(std::abs(front_end.x() - (type == CornerType::kButt ? inside_x : outside_x)) < kTolerance_mm);
        CHECK(std::abs(outside_x - inside_x - 2) < kTolerance_mm);
    }
}

TEST_CASE("lips on a tray: folded opening between two lips") {
    Recipe recipe = plate(200, 150, 1.5, 1, Measured::kOutside);
    addFlange(recipe, "front", "base.front", 50);
    addFlange(recipe, "back", "base.back", 50);
    addFlange(recipe, "lip_f", "front.far", 10);
    addFlange(recipe, "lip_b", "back.far", 10);
    const Part part = develop(recipe).value();
    CHECK(std::abs(folded(part, "lip_b", 2, 0).y() - folded(part, "lip_f", 2, 0).y() - 130) < kTolerance_mm);
    CHECK(std::abs(faceOf(part, "lip_f", false).normal.z() + 1) < 1e-12);   // upside down
    CHECK(std::abs(folded(part, "lip_f", 2, 0).z() - 50) < kTolerance_mm);  // outside height, from the back face z = 0
}
