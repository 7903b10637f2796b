// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

#include <tinwright/brake/tooling/punch_profile.h>

using namespace tinwright;

namespace {

PunchSection straight(double angle_deg, double radius_mm) { return {Angle::degrees(angle_deg), radius_mm, 90, 16, {}}; }

PunchSection gooseneck() { return {Angle::degrees(85), 0.8, 105, 24, PunchThroat{30, 12, 85, 45.0, 65.0, 20}}; }

// How far inside the line of an edge a point is; the section is to its left.
double insideEdge_mm(const Polygon& section, std::size_t i, const Vec2& point) {
    const Vec2 along = section[(i + 1) % section.size()] - section[i];
    const Vec2 to = point - section[i];
    return (along.x() * to.y() - along.y() * to.x()) / along.norm();
}

bool contains(const Polygon& section, const Vec2& point) {
    return difference(Region{{point, point + Vec2(1e-3, 0), point + Vec2(0, 1e-3)}, {}}, {section}).empty();
}

}  // namespace

TEST_CASE("a punch's tip arc is enclosed by at most the stated error, and touches z = 0 at y = 0") {
    const double angle_deg = GENERATE(26.0, 30.0, 60.0, 85.0, 88.0, 90.0, 120.0);
    const double radius_mm = GENERATE(0.2, 0.8, 1.5, 3.0);
    CAPTURE(angle_deg, radius_mm);
    const PunchSection punch = straight(angle_deg, radius_mm);
    REQUIRE(whyNoPunchSection(punch).empty());
    const Polygon section = punchSection(punch);
    CHECK(isValid(Region{section, {}}));
    CHECK(convexPieces(Region{section, {}}).size() == 1);
    CHECK(signedArea_mm2(section) > 0);
    const Vec2 centre(0, radius_mm);
    int on_arc = 0;
    bool has_bottom = false;
    for (std::size_t i = 0; i < section.size(); ++i) {
        CHECK(section[i].y() >= 0);
        CHECK(insideEdge_mm(section, i, centre) >= radius_mm - 1e-9);  // no edge cuts the arc off
        const double distance_mm = (section[i] - centre).norm();
        CHECK(distance_mm >= radius_mm - 1e-12);
        if (distance_mm <= radius_mm + kNoseArcError_mm + 1e-12) ++on_arc;
        const Vec2& next = section[(i + 1) % section.size()];
        if (section[i].y() == 0 && next.y() == 0)
            has_bottom = section[i].x() < 0 && next.x() > 0 && std::abs(section[i].x() + next.x()) < 1e-12;
    }
    CHECK(on_arc >= 2);
    CHECK(on_arc % 2 == 0);
    CHECK(has_bottom);
    CHECK(whyNoPunch(section, radius_mm).empty());
}

TEST_CASE("a punch's flanks stand half the tip angle from upright and touch the arc") {
    const double angle_deg = GENERATE(30.0, 88.0);
    const Polygon section = punchSection(straight(angle_deg, 1.5));
    double steepest = 0;
    int flanks = 0;
    for (std::size_t i = 0; i < section.size(); ++i) {
        const Vec2 along = section[(i + 1) % section.size()] - section[i];
        const double from_upright_deg = std::atan2(std::abs(along.x()), std::abs(along.y())) * 180 / std::numbers::pi;
        if (along.norm() < 2 || from_upright_deg < 1 || from_upright_deg > 89) continue;
        ++flanks;
        steepest = std::max(steepest, std::abs(from_upright_deg - angle_deg / 2));
        CHECK(insideEdge_mm(section, i, Vec2(0, 1.5)) == Approx(1.5).epsilon(1e-9));
    }
    CHECK(flanks == 2);
    CHECK(steepest < 1e-9);
}

TEST_CASE("a punch's extents are those that were measured") {
    const Polygon section = punchSection(straight(85, 0.8));
    double front_mm = HUGE_VAL;
    double back_mm = -HUGE_VAL;
    for (const Vec2& point : section) {
        front_mm = std::min(front_mm, point.x());
        back_mm = std::max(back_mm, point.x());
    }
    CHECK(front_mm == -8.0);
    CHECK(back_mm == 8.0);
    CHECK(height_mm(section) == 90.0);
    const Polygon sharp = punchSection(straight(90, 0));
    CHECK(sharp.front() == Vec2(0, 0));
    CHECK(sharp.size() == 5);
    CHECK(whyNoPunch(sharp, 0).empty());
}

TEST_CASE("a gooseneck is hollow in front, its neck stands behind the tip, its body is in front again") {
    const PunchSection punch = gooseneck();
    REQUIRE(whyNoPunchSection(punch).empty());
    const Polygon section = punchSection(punch);
    CHECK(isValid(Region{section, {}}));
    CHECK(signedArea_mm2(section) > 0);
    CHECK(whyNoPunch(section, 0.8).empty());
    CHECK_FALSE(contains(section, Vec2(0, 55)));
    CHECK_FALSE(contains(section, Vec2(29.9, 55)));
    CHECK(contains(section, Vec2(30.1, 55)));
    CHECK(contains(section, Vec2(49.9, 55)));
    CHECK_FALSE(contains(section, Vec2(50.1, 55)));
    CHECK(contains(section, Vec2(-11.9, 85.1)));
    CHECK(contains(section, Vec2(0, 5)));
}

TEST_CASE("a throat whose deepest nobody has measured is deepest half way up, and one over the flank leaves a lip") {
    PunchSection punch = gooseneck();
    punch.throat = PunchThroat{20, 30, 80, {}, {}, 15};
    REQUIRE(whyNoPunchSection(punch).empty());
    const Polygon section = punchSection(punch);
    CHECK(isValid(Region{section, {}}));
    CHECK(std::find(section.begin(), section.end(), Vec2(20, 55)) != section.end());
    CHECK(std::find(section.begin(), section.end(), Vec2(-12, 30)) != section.end());
}

TEST_CASE("numbers that make no punch are told in words") {
    const auto why = [](PunchSection punch, auto change) {
        change(punch);
        return whyNoPunchSection(punch);
    };
    const PunchSection good = straight(85, 0.8);
    CHECK(whyNoPunchSection(good).empty());
    CHECK_FALSE(why(good, [](PunchSection& p) { p.tip_angle = Angle::degrees(3); }).empty());
    CHECK_FALSE(why(good, [](PunchSection& p) { p.tip_angle = Angle::degrees(175); }).empty());
    CHECK_FALSE(why(good, [](PunchSection& p) { p.tip_radius_mm = -1; }).empty());
    CHECK_FALSE(why(good, [](PunchSection& p) { p.tip_radius_mm = 1e-300; }).empty());
    CHECK_FALSE(why(good, [](PunchSection& p) { p.tip_radius_mm = 12; }).empty());  // wider than the body
    CHECK_FALSE(why(good, [](PunchSection& p) { p.height_mm = 8; }).empty());       // the flanks end over the seat
    CHECK_FALSE(why(good, [](PunchSection& p) { p.height_mm = std::nan(""); }).empty());
    CHECK(whyNoPunchSection(gooseneck()).empty());
    CHECK_FALSE(why(gooseneck(), [](PunchSection& p) { p.throat->from_mm = 0.1; }).empty());
    CHECK_FALSE(why(gooseneck(), [](PunchSection& p) { p.throat->to_mm = 106; }).empty());
    CHECK_FALSE(why(gooseneck(), [](PunchSection& p) { p.throat->deepest_from_mm = 70; }).empty());
    CHECK_FALSE(why(gooseneck(), [](PunchSection& p) { p.throat->deepest_to_mm = 90; }).empty());
    CHECK_FALSE(why(gooseneck(), [](PunchSection& p) { p.throat->neck_mm = 0.5; }).empty());
    CHECK_FALSE(why(gooseneck(), [](PunchSection& p) { p.throat->depth_mm = -12; }).empty());
    CHECK_FALSE(why(gooseneck(), [](PunchSection& p) { p.throat->depth_mm = 42; }).empty());  // through the back flank
    CHECK_FALSE(why(gooseneck(), [](PunchSection& p) { p.tip_angle = Angle::degrees(30); }).empty());
    CHECK_FALSE(why(gooseneck(), [](PunchSection& p) {
                    p.throat->to_mm = 12.5;
                    p.throat->deepest_from_mm = p.throat->deepest_to_mm = 12.2;
                    p.throat->depth_mm = 0;
                }).empty());
}

TEST_CASE("a punch that is given point by point has its tip at the origin, and is as blunt as it says") {
    const Polygon good{Vec2(0, 0), Vec2(8, 8), Vec2(8, 60), Vec2(-8, 60), Vec2(-8, 8)};
    CHECK(whyNoPunch(good, 0).empty());
    CHECK(whyNoPunch(good, 1).find("not sharper") != std::string::npos);
    CHECK(whyNoPunch({Vec2(-2, 0), Vec2(2, 0), Vec2(8, 60), Vec2(-8, 60)}, 1).find("sticks out") != std::string::npos);
    const auto moved = [&](double y_mm, double z_mm) {
        Polygon section = good;
        for (Vec2& point : section) point += Vec2(y_mm, z_mm);
        return section;
    };
    CHECK(whyNoPunch(moved(0, 0.5), 0).find("z = 0") != std::string::npos);
    CHECK(whyNoPunch(moved(0, -0.5), 0).find("z = 0") != std::string::npos);
    CHECK(whyNoPunch(moved(1, 0), 0).find("y = 0") != std::string::npos);
    CHECK(whyNoPunch({Vec2(0, 0), Vec2(8, 60), Vec2(-8, 60), Vec2(8, 8)}, 0).find("cross") != std::string::npos);
}
