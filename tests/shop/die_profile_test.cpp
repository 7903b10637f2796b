// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

#include <tinwright/brake/tooling/bar_profile.h>
#include <tinwright/brake/tooling/die_profile.h>

using namespace tinwright;

namespace {

DieSection single(double opening_mm, double angle_deg, double shoulder_mm) {
    return {{{{opening_mm, Angle::degrees(angle_deg), shoulder_mm}, 0, {}}}, 100, 2 * opening_mm + 4 * shoulder_mm + 2};
}

// The exact shoulder, by its own route: the circle of radius s in the corner between top (z = 0) and flank has its
// centre on the corner's bisector, s / sin(half the corner's angle) away; the corner's angle is 90 degrees and half the
// V's.
Vec2 shoulderCentre(const Vee& vee) {
    const double corner_rad = std::numbers::pi / 2 + vee.angle.rad() / 2;
    const double far_mm = vee.shoulder_radius_mm / std::sin(corner_rad / 2);
    return {vee.opening_mm / 2 + far_mm * std::cos(corner_rad / 2), -far_mm * std::sin(corner_rad / 2)};
}

DieSection block() {
    DieSection die{{}, 60, 60};
    die.cuts.push_back({{16, Angle::degrees(85), 2}, -14, {}});
    die.cuts.push_back({{8, Angle::degrees(85), 1}, 20, VeeSlot{1, 8}});
    die.cuts.push_back({{10, Angle::degrees(30), 1}, 6, {}});
    return die;
}

}  // namespace

TEST_CASE("a die's shoulders are enclosed by at most the stated error, its flanks and top touch them") {
    const double angle_deg = GENERATE(30.0, 60.0, 85.0, 88.0, 90.0);
    const double shoulder_mm = GENERATE(0.5, 1.0, 2.0, 3.0);
    CAPTURE(angle_deg, shoulder_mm);
    const DieSection die = single(16, angle_deg, shoulder_mm);
    REQUIRE(whyNoDieSection(die).empty());
    const Vee& vee = die.cuts[0].vee;
    const Polygon section = dieSection(die, 0);
    CHECK(isValid(Region{section, {}}));
    CHECK(signedArea_mm2(section) > 0);
    CHECK(shoulderOut_mm(vee) == Approx(shoulderCentre(vee).x()).epsilon(1e-12));
    int on_arc = 0;
    for (const Vec2& point : section) {
        CHECK(point.y() <= 0);
        if (point.y() < shoulderCentre(vee).y()) continue;  // under the arcs
        for (const double side : {1.0, -1.0}) {
            const Vec2 centre(side * shoulderCentre(vee).x(), shoulderCentre(vee).y());
            const double distance_mm = (point - centre).norm();
            if (side * point.x() > std::abs(centre.x())) continue;
            CHECK(distance_mm >= shoulder_mm - 1e-9);
            if (distance_mm <= shoulder_mm + kNoseArcError_mm + 1e-9) ++on_arc;
        }
    }
    CHECK(on_arc >= 4);
    // Steel wherever the true die has it: the arc's points and the flank lie in the section.
    for (int i = 0; i <= 20; ++i) {
        const double from_up_rad = (std::numbers::pi / 2 - vee.angle.rad() / 2) * i / 20;
        const Vec2 at =
            shoulderCentre(vee) + (shoulder_mm - 1e-3) * Vec2(-std::sin(from_up_rad), std::cos(from_up_rad));
        CHECK(difference(Region{{at, at + Vec2(1e-4, 0), at + Vec2(0, 1e-4)}, {}}, {section}).empty());
    }
    CHECK(whyNoDie(section, vee).empty());
}

TEST_CASE("a V reaches down until its flanks meet, or to the floor of its slot") {
    DieSection die = single(16, 90, 2);
    const auto lowest = [&] {
        double low_mm = 0;
        for (const Vec2& point : dieSection(die, 0)) {
            if (std::abs(point.x()) < 2) low_mm = std::min(low_mm, point.y());
        }
        return low_mm;
    };
    CHECK(veeDepth_mm(die.cuts[0].vee) == Approx(8));
    CHECK(lowest() == Approx(-8));
    die.cuts[0].slot = VeeSlot{2, 12};
    REQUIRE(whyNoDieSection(die).empty());
    CHECK(lowest() == Approx(-12));
    CHECK(isValid(Region{dieSection(die, 0), {}}));
    CHECK(whyNoDie(dieSection(die, 0), die.cuts[0].vee).empty());
}

TEST_CASE("a V is free of steel down to where its flanks meet, or to what fills it up") {
    DieSection die = single(16, 90, 2);
    CHECK(freeDepth_mm(dieSection(die, 0), die.cuts[0].vee) == Approx(8));
    die.cuts[0].slot = VeeSlot{2, 12};
    CHECK(freeDepth_mm(dieSection(die, 0), die.cuts[0].vee) == Approx(8));
    // Of a V of 90 degrees that is filled up to 5 mm under its top.
    const Polygon filled{Vec2(-15, -30), Vec2(15, -30), Vec2(15, 0), Vec2(8, 0),
                         Vec2(3, -5),    Vec2(-3, -5),  Vec2(-8, 0), Vec2(-15, 0)};
    const Vee sharp{16, Angle::degrees(90), 0};
    CHECK(whyNoDie(filled, sharp).empty());
    CHECK(freeDepth_mm(filled, sharp) == Approx(5).margin(1e-6));
}

TEST_CASE("a block has all its Vs, seen from the middle of the one that is used") {
    const DieSection die = block();
    REQUIRE(whyNoDieSection(die).empty());
    for (std::size_t used = 0; used < die.cuts.size(); ++used) {
        const Polygon section = dieSection(die, used);
        CHECK(isValid(Region{section, {}}));
        CHECK(whyNoDie(section, die.cuts[used].vee).empty());
        CHECK_FALSE(whyNoDie(section, die.cuts[(used + 1) % 3].vee).empty());
        CHECK(section[0].x() == Approx(-30 - die.cuts[used].offset_mm));
    }
    CHECK(signedArea_mm2(dieSection(die, 0)) == Approx(signedArea_mm2(dieSection(die, 2))));
}

TEST_CASE("numbers that make no die are told in words") {
    const auto why = [](DieSection die, auto change) {
        change(die);
        return whyNoDieSection(die);
    };
    const DieSection good = single(16, 85, 2);
    CHECK(whyNoDieSection(good).empty());
    CHECK_FALSE(why(good, [](DieSection& d) { d.cuts.clear(); }).empty());
    CHECK_FALSE(why(good, [](DieSection& d) { d.height_mm = 9; }).empty());
    CHECK_FALSE(why(good, [](DieSection& d) { d.body_width_mm = 17; }).empty());
    CHECK_FALSE(why(good, [](DieSection& d) { d.cuts[0].vee.opening_mm = 0.1; }).empty());
    CHECK_FALSE(why(good, [](DieSection& d) { d.cuts[0].vee.angle = Angle::degrees(180); }).empty());
    CHECK_FALSE(why(good, [](DieSection& d) { d.cuts[0].vee.shoulder_radius_mm = -1; }).empty());
    CHECK_FALSE(why(good, [](DieSection& d) { d.cuts[0].vee.shoulder_radius_mm = 40; }).empty());  // nothing is left of
                                                                                                   // the flank
    CHECK_FALSE(why(good, [](DieSection& d) { d.cuts[0].offset_mm = 13; }).empty());
    CHECK_FALSE(why(good, [](DieSection& d) { d.cuts[0].offset_mm = std::nan(""); }).empty());
    CHECK_FALSE(why(good, [](DieSection& d) { d.cuts[0].slot = VeeSlot{17, 20}; }).empty());
    CHECK_FALSE(why(good, [](DieSection& d) { d.cuts[0].slot = VeeSlot{2, 5}; }).empty());
    CHECK_FALSE(why(good, [](DieSection& d) { d.cuts[0].slot = VeeSlot{15.5, 20}; }).empty());  // nor here
    CHECK_FALSE(why(block(), [](DieSection& d) { d.cuts[2].offset_mm = 12; }).empty());
}

TEST_CASE("a die that is given point by point has its top at z = 0 and the V that it says") {
    const Vee vee{16, Angle::degrees(90), 0};
    const Polygon good{Vec2(-15, -60), Vec2(15, -60), Vec2(15, 0), Vec2(8, 0),
                       Vec2(1, -7),    Vec2(-1, -7),  Vec2(-8, 0), Vec2(-15, 0)};
    CHECK(whyNoDie(good, vee).empty());
    const auto moved = [&](double y_mm, double z_mm) {
        Polygon section = good;
        for (Vec2& point : section) point += Vec2(y_mm, z_mm);
        return section;
    };
    CHECK(whyNoDie(moved(0, 1), vee).find("z = 0") != std::string::npos);
    CHECK(whyNoDie(moved(0.5, 0), vee).find("steel") != std::string::npos);
    CHECK(whyNoDie(good, {16, Angle::degrees(90), 2}).find("too much") != std::string::npos);
    CHECK(whyNoDie(good, {12, Angle::degrees(90), 0}).find("too little") != std::string::npos);
    CHECK(whyNoDie(good, {16, Angle::degrees(80), 0}).find("steel") != std::string::npos);
    CHECK(whyNoDie({Vec2(-15, -60), Vec2(15, 0), Vec2(15, -60), Vec2(-15, 0)}, vee).find("cross") != std::string::npos);
}
