// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

#include <tinwright/brake/tooling/bar_profile.h>

using namespace tinwright;

namespace {

NoseSection magnetic(double angle_deg, double radius_mm) {
    return {Angle::degrees(angle_deg), radius_mm, 100, 25, {}, {}};
}

bool isConvexAndSimple(const Polygon& section) {
    return isValid(Region{section, {}}) && convexPieces(Region{section, {}}).size() == 1;
}

// Exact area of the same section with a true arc: a quadrilateral with the sharp nose, less what the arc rounds off
// between the two tangents, r²·(tan((180° - a)/2) - (180° - a)/2).
double exactArea_mm2(const NoseSection& nose) {
    const double a = nose.nose_angle.rad();
    const double turn = std::numbers::pi - a;
    const double apex_y = nose.radius_mm - nose.radius_mm * std::tan(turn / 2);
    const double top_y = apex_y + nose.height_mm / std::tan(a);
    const double sharp = nose.height_mm * ((nose.clamp_depth_mm - apex_y) + (nose.clamp_depth_mm - top_y)) / 2;
    return sharp - nose.radius_mm * nose.radius_mm * (std::tan(turn / 2) - turn / 2);
}

}  // namespace

TEST_CASE("the nose arc is enclosed by at most the stated error") {
    const double angle_deg = GENERATE(20.0, 30.0, 45.0, 60.0, 75.0, 90.0);
    const double radius_mm = GENERATE(0.2, 0.5, 1.0, 2.0, 3.0);
    CAPTURE(angle_deg, radius_mm);
    const NoseSection nose = magnetic(angle_deg, radius_mm);
    const Polygon section = barSection(nose);
    const Vec2 centre(radius_mm, radius_mm);
    double farthest = 0;
    int on_arc = 0;
    for (const Vec2& point : section) {
        const double distance_mm = (point - centre).norm();
        CHECK(distance_mm >= radius_mm - 1e-12);  // no vertex inside the arc
        if (distance_mm > radius_mm + kNoseArcError_mm + 1e-12) continue;
        farthest = std::max(farthest, distance_mm);
        ++on_arc;
    }
    CHECK(on_arc >= 2);
    CHECK(farthest <= radius_mm + kNoseArcError_mm + 1e-12);
    // No edge cuts the arc off: every edge's line keeps the radius from the centre.
    for (std::size_t i = 0; i < section.size(); ++i) {
        const Vec2 along = section[(i + 1) % section.size()] - section[i];
        const Vec2 to_centre = centre - section[i];
        CHECK((along.x() * to_centre.y() - along.y() * to_centre.x()) / along.norm() >= radius_mm - 1e-9);
    }
    CHECK(signedArea_mm2(section) >= exactArea_mm2(nose) - 1e-9);
    CHECK(signedArea_mm2(section) <= exactArea_mm2(nose) + kNoseArcError_mm * radius_mm * std::numbers::pi);
    CHECK(isConvexAndSimple(section));
}

TEST_CASE("a section's extents are those that were measured") {
    const Polygon section = barSection(magnetic(45, 1));
    double front_mm = HUGE_VAL;
    double low_mm = HUGE_VAL;
    for (const Vec2& point : section) {
        front_mm = std::min(front_mm, point.x());
        low_mm = std::min(low_mm, point.y());
    }
    CHECK(low_mm == 0.0);
    CHECK(front_mm <= 0.0);
    CHECK(front_mm >= -kNoseArcError_mm);
    CHECK(clampDepth_mm(section) == 100.0);
    CHECK(height_mm(section) == 25.0);
    CHECK(whyNoBar(section, 1).empty());
}

TEST_CASE("the front face stands at the nose angle and touches the arc") {
    const double radius_mm = 2;
    const Polygon section = barSection(magnetic(30, radius_mm));
    const Vec2 top = section.back();
    const Vec2 face = top - section.front();
    CHECK(std::atan2(face.y(), face.x()) * 180 / std::numbers::pi == Approx(30).epsilon(1e-12));
    const Vec2 to_centre = Vec2(radius_mm, radius_mm) - section.front();
    CHECK(std::abs(face.x() * to_centre.y() - face.y() * to_centre.x()) / face.norm() ==
          Approx(radius_mm).epsilon(1e-12));
}

TEST_CASE("a sharp nose is a single corner on the nose line") {
    const Polygon section = barSection(magnetic(45, 0));
    CHECK(section == Polygon{Vec2(0, 0), Vec2(100, 0), Vec2(100, 25), section.back()});
    CHECK((section.back() - Vec2(25, 25)).norm() < 1e-12);
}

TEST_CASE("a finger has a toe and a shank") {
    NoseSection finger{Angle::degrees(45), 1, 60, 100, 45.0, {}};
    const Polygon straight = barSection(finger);
    CHECK(isValid(Region{straight, {}}));
    const double shank_mm = 45 - std::sqrt(2.0);  // where the face that touches the arc is 45 up
    CHECK((straight.back() - Vec2(shank_mm, 45)).norm() < 0.6);
    CHECK(straight[straight.size() - 2].x() == straight.back().x());
    CHECK(straight[straight.size() - 2].y() == 100.0);
    finger.shank_front_mm = 50;
    const Polygon stepped = barSection(finger);
    CHECK(stepped.size() == straight.size() + 1);
    CHECK(stepped[stepped.size() - 2] == Vec2(50, 45));
    CHECK(signedArea_mm2(stepped) < signedArea_mm2(straight));
    CHECK(whyNoBar(stepped, 1).empty());
}

TEST_CASE("numbers that make no section are told in words") {
    const NoseSection good = magnetic(45, 1);
    const auto why = [&](auto change) {
        NoseSection nose = good;
        change(nose);
        return whyNoSection(nose);
    };
    CHECK(whyNoSection(good).empty());
    CHECK_FALSE(why([](NoseSection& n) { n.nose_angle = Angle::degrees(95); }).empty());
    CHECK_FALSE(why([](NoseSection& n) { n.nose_angle = Angle::degrees(0); }).empty());
    CHECK_FALSE(why([](NoseSection& n) { n.radius_mm = -1; }).empty());
    CHECK_FALSE(why([](NoseSection& n) { n.radius_mm = 30; }).empty());       // arc higher than the bar
    CHECK_FALSE(why([](NoseSection& n) { n.clamp_depth_mm = 20; }).empty());  // face meets back
    CHECK_FALSE(why([](NoseSection& n) { n.height_mm = std::nan(""); }).empty());
    CHECK_FALSE(why([](NoseSection& n) { n.toe_height_mm = 26; }).empty());
    CHECK_FALSE(why([](NoseSection& n) { n.shank_front_mm = 50; }).empty());  // no toe height
    CHECK_FALSE(why([](NoseSection& n) {
                    n.toe_height_mm = 20;
                    n.shank_front_mm = 10;
                }).empty());
    CHECK_FALSE(why([](NoseSection& n) {
                    n.toe_height_mm = 20;
                    n.shank_front_mm = 100;
                }).empty());
}

TEST_CASE("a section given by points must be a bar with that nose") {
    const Polygon sharp{{0, 0}, {50, 0}, {50, 25}, {25, 25}};
    CHECK(whyNoBar(sharp, 0).empty());
    CHECK_FALSE(whyNoBar(sharp, 1).empty());                                  // sticks out of the bend
    CHECK_FALSE(whyNoBar({{5, 0}, {50, 0}, {50, 25}, {0, 25}}, 1).empty());   // lands 5 behind the nose
    CHECK_FALSE(whyNoBar({{2, 0}, {50, 0}, {50, 25}, {25, 25}}, 1).empty());  // nose line at 2
    CHECK_FALSE(whyNoBar({{0, 1}, {50, 1}, {50, 25}, {25, 25}}, 0).empty());  // hangs in the air
    CHECK_FALSE(whyNoBar({{0, 0}, {50, 25}, {50, 0}, {0, 25}}, 0).empty());   // crosses itself
    CHECK(whyNoBar({{0, 1}, {0.293, 0.293}, {1, 0}, {50, 0}, {50, 25}, {25, 25}}, 1).empty());  // an arc in few points
}
