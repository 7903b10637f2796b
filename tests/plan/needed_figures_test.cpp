// SPDX-License-Identifier: GPL-3.0-or-later
// What a machine would need, tried as a shop would: the figure is written into the shop file, and the part is planned
// on that brake. With what is told it goes, a step nearer to the brake as it is it does not.
#include <cmath>
#include <numbers>
#include <random>

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <tinwright/brake/tooling/bar_profile.h>
#include <tinwright/sequence/remedies/machine_needs.h>

#include "../one_vee.h"
#include "plan_support.h"

namespace tinwright::test {

namespace {

constexpr unsigned kSeed = 20264;

/// A press brake as its shop file has it; a height of 0: none of those punches.
struct Press {
    double length_mm = 600;
    double open_mm = 300;
    double stroke_mm = 180;  // lowered to the stroke's end, the shortest punch is in the V
    double straight_mm = 0;
    double body_mm = 16;  // of straight ones
    double gooseneck_mm = 0;
    double throat_mm = 30;
    double vee_deg = 85;
    double tip_deg = 85;
};

std::string punchesOf(const Press& press) {
    std::string punches;
    for (const int width_mm : {10, 20, 40, 50, 100, 200}) {
        if (press.straight_mm > 0)
            punches += fmt::format(
                R"({}{{"id":"S{}","height":{},"tip_radius":0.8,"tip_angle_deg":{},"body_width":{},"width":{},"count":2}})",
                punches.empty() ? "" : ",", width_mm, press.straight_mm, press.tip_deg, press.body_mm, width_mm);
        if (press.gooseneck_mm > 0)
            punches += fmt::format(
                R"({}{{"id":"G{}","height":{},"tip_radius":0.8,"tip_angle_deg":85,"body_width":24,"width":{},"count":2,)"
                R"("throat":{{"depth":{},"from":12,"to":85,"deepest_from":45,"deepest_to":65,"neck":20}}}})",
                punches.empty() ? "" : ",", width_mm, press.gooseneck_mm, width_mm, press.throat_mm);
    }
    return punches;
}

// Two Vs suit the sheet: a step less may go in neither.
Shop shopOf(const Press& press) {
    std::string dies;
    for (const int opening_mm : {10, 12}) {
        for (const int width_mm : {10, 20, 40, 50, 100, 200}) {
            dies += fmt::format(
                R"({}{{"id":"V{}-{}","height":60,"angle_deg":{},"opening":{},"shoulder_radius":1.5,"body_width":28,"width":{},"count":2}})",
                dies.empty() ? "" : ",", opening_mm, width_mm, press.vee_deg, opening_mm, width_mm);
        }
    }
    return shopFrom(fmt::format(
        R"({{"format":"tinwright-shop/1","units":"mm","name":"press","brakes":[{{"machine":"press-brake","name":"press",)"
        R"("length":{},"force_kn":600,"open_height":{},"stroke":{},)"
        R"("ram":[[-45,0],[45,0],[45,600],[-45,600]],"bed":[[-30,0],[-30,-500],[30,-500],[30,0]],)"
        R"("punches":[{}],"dies":[{}]}}]}})",
        press.length_mm, press.open_mm, press.stroke_mm, punchesOf(press), dies));
}

void write(Press& press, const FigureNeed& need, double value) {
    switch (need.figure) {
        case MachineFigure::kLength: press.length_mm = value; return;
        case MachineFigure::kOpenHeight:
            press.stroke_mm += value - press.open_mm;
            press.open_mm = value;
            return;
        case MachineFigure::kPunchHeight: {
            const bool is_gooseneck = need.like.empty() ? press.straight_mm <= 0 : need.like.starts_with("G");
            (is_gooseneck ? press.gooseneck_mm : press.straight_mm) = value;
            return;
        }
        case MachineFigure::kPunchThroat: press.throat_mm = value; return;
        case MachineFigure::kVeeAngle:
            if (press.straight_mm <= 0) {  // beside goosenecks, of their height and body
                press.straight_mm = press.gooseneck_mm;
                press.body_mm = 24;
            }
            press.vee_deg = std::min(press.vee_deg, value);
            press.tip_deg = std::min(press.tip_deg, value);
            return;
        default: FAIL("no figure of this press");
    }
}

double stepLess(const FigureNeed& need) {
    return need.needs > need.has ? need.needs - need.step : need.needs + need.step;
}

// Each way with all its figures as told but for one (none: all of them) a step nearer.
template <class Machine, class MakeShop, class Write>
int tryAll(const Part& part, const Machine& machine, MakeShop&& make_shop, Write&& write_into) {
    const Shop shop = make_shop(machine);
    const BrakeResult drawn = planOnBrake(part, shop, 0, {});
    if (drawn.verdict != Verdict::kInfeasible) return 0;
    int tried = 0;
    const MachineNeeds needs = machineNeeds(part, shop, drawn.brake, {});
    for (const NeedsWay& way : needs.ways) {
        if (!way.piece_widths_mm.empty()) continue;
        for (std::size_t less = 0; less <= way.figures.size(); ++less) {
            Machine changed = machine;
            for (std::size_t i = 0; i < way.figures.size(); ++i)
                write_into(changed, way.figures[i], i == less ? stepLess(way.figures[i]) : way.figures[i].needs);
            CAPTURE(less, way.figures.size(), static_cast<int>(way.figures[0].figure), way.figures[0].needs);
            const bool is_all = less == way.figures.size();
            const Verdict verdict = is_all ? planVerified(part, make_shop(changed), 0, 1).verdict
                                           : planOnBrake(part, make_shop(changed), 0, {}).verdict;
            CHECK(verdict == (is_all ? Verdict::kFeasible : Verdict::kInfeasible));
        }
        ++tried;
    }
    return tried;
}

std::string sheet(double width_mm, double depth_mm, const std::string& flanges) {
    return fmt::format(
        R"({{"format":"tinwright-part/1","units":"mm","name":"random","sheet":{{"material":"mild-steel","thickness":1.5}},)"
        R"("allowance":{{"rule":"k-factor","k":0.42}},"inside_radius":1.6,"measured":"outside",)"
        R"("base":{{"name":"web","width":{},"depth":{}}},"flanges":[{}]}})",
        width_mm, depth_mm, flanges);
}

std::string flange(const std::string& name, const std::string& on, double length_mm, double angle_deg = 90) {
    return fmt::format(R"({{"name":"{}","on":"{}","length":{},"angle":{}}})", name, on, length_mm, angle_deg);
}

// A channel whose walls reach up beside the punch, the same with a lip turned in, a channel with walls higher than it
// is wide, or an angle that is bent sharply: nothing that punches of these widths lack.
template <class Real>
Part randomPart(Real& real, int kind) {
    const double width_mm = real(60, 250);
    if (kind == 0) return partFrom(sheet(width_mm, 60, flange("leg", "web.front", real(25, 60), real(96, 130))));
    const double web_mm = kind == 3 ? real(38, 50) : real(60, 150);
    const double leg_mm = web_mm + (kind == 3 ? real(4, 10) : real(-40, -5));
    const double other_mm = leg_mm + (kind == 3 ? real(0, 3) : real(-15, 15));
    std::string flanges = flange("front", "web.front", leg_mm) + "," + flange("back", "web.back", other_mm);
    if (kind == 2) flanges += "," + flange("lip", "front.far", real(10, 18));
    return partFrom(sheet(width_mm, web_mm, flanges));
}

// Of a part that does not go as the brake is.
MachineNeeds needsOf(const Part& part, const Shop& shop) {
    const BrakeResult drawn = planOnBrake(part, shop, 0, {});
    REQUIRE(drawn.verdict == Verdict::kInfeasible);
    MachineNeeds needs = machineNeeds(part, shop, drawn.brake, {});
    REQUIRE(needs.found);
    return needs;
}

// The one figure that does alone, in the first way told.
const FigureNeed& onlyFigure(const MachineNeeds& needs) {
    REQUIRE(needs.ways.at(0).figures.size() == 1);
    return needs.ways[0].figures[0];
}

}  // namespace

TEST_CASE("Every figure told of a press brake makes the part, and a step less does not") {
    std::mt19937 random(kSeed);
    const auto real = [&](double lo, double hi) {
        return std::round(std::uniform_real_distribution<double>(lo, hi)(random));
    };
    int tried = 0;
    for (int i = 0; i < 36; ++i) {
        Press press;
        const int kind = i % 4;
        if (i % 3 != 1) press.straight_mm = real(60, 80);
        if (i % 3 != 0 || kind == 3) press.gooseneck_mm = real(100, 110);
        press.throat_mm = kind == 3 ? real(4, 8) : real(6, 30);
        press.open_mm = real(250, 320);
        press.stroke_mm = press.open_mm - real(100, 120);
        const Part part = randomPart(real, kind);
        CAPTURE(kSeed, i);
        tried += tryAll(part, press, shopOf, write);
    }
    CHECK(tried > 10);
}

namespace {

Shop leafShop(const Brake& brake) {
    Shop shop = shippedShop();
    shop.brakes = {brake};
    return shop;
}

void writeLeaf(Brake& brake, const FigureNeed& need, double value) {
    LeafBrake& leaf = brake.leaf();
    switch (need.figure) {
        case MachineFigure::kLength: brake.length_mm = value; return;
        case MachineFigure::kLeafAngle: leaf.max_leaf_angle = Angle::degrees(value); return;
        case MachineFigure::kOpening: leaf.opening_mm = value; return;
        case MachineFigure::kGapBehindNose: leaf.beam->front_y_mm = value; return;
        case MachineFigure::kClampDepth:
        case MachineFigure::kBarHeight: {
            const bool is_depth = need.figure == MachineFigure::kClampDepth;
            for (Bar& bar : leaf.bars) {
                const auto section = milledSection(bar.profile, leaf.nose_radius_mm,
                                                   is_depth ? std::min(value, bar.clamp_depth_mm) : bar.clamp_depth_mm,
                                                   is_depth ? bar.height_mm : std::min(value, bar.height_mm));
                if (!section) continue;
                bar.profile = *section;
                bar.clamp_depth_mm = clampDepth_mm(*section);
                bar.height_mm = height_mm(*section);
                bar.end_relief_height_mm = std::min(bar.end_relief_height_mm, bar.height_mm);
            }
            return;
        }
        default: FAIL("no figure of a leaf brake");
    }
}

}  // namespace

TEST_CASE("Every figure told of a leaf brake makes the part, and a step less does not") {
    std::mt19937 random(kSeed + 1);
    const auto real = [&](double lo, double hi) {
        return std::round(std::uniform_real_distribution<double>(lo, hi)(random));
    };
    int tried = 0;
    for (int i = 0; i < 24; ++i) {
        const Shop& shop = shippedShop();
        Brake brake = shop.brakes[brakeNamed(shop, i % 2 == 0 ? "B" : "M100")];
        const int kind = i % 3;
        if (kind == 0) brake.leaf().max_leaf_angle = Angle::degrees(real(95, 120));
        const Part part = randomPart(real, kind);
        CAPTURE(kSeed, i);
        tried += tryAll(part, brake, leafShop, writeLeaf);
    }
    CHECK(tried > 5);
}

// Goosenecks stand beside straight punches: the figure is told of either, by name.
TEST_CASE("A height is told of punches of one section, not of all alike") {
    Press press;
    press.straight_mm = 65;
    press.gooseneck_mm = 105;
    const Part part =
        partFrom(sheet(150, 100, flange("front", "web.front", 75) + "," + flange("back", "web.back", 75)));
    const Shop shop = shopOf(press);
    const MachineNeeds needs = needsOf(part, shop);
    for (const NeedsWay& way : needs.ways) {
        REQUIRE(way.figures.size() == 1);
        const FigureNeed& need = way.figures[0];
        CAPTURE(need.like, need.needs);
        CHECK(need.figure == MachineFigure::kPunchHeight);
        CHECK((need.like == "S10" || need.like == "G10"));
        CHECK(need.has == (need.like == "S10" ? press.straight_mm : press.gooseneck_mm));
    }
}

// At the end of the second fold, 93 degrees, the web (40) rises at 46.5 degrees; the first leg (50) stands square on it
// and its end lies 50 sin 46.5 - 40 cos 46.5 = 8.7 mm behind the tip, give or take the thickness and the clearance.
TEST_CASE("A channel with legs longer than its web asks for as deep a gooseneck as a hand calculation has it") {
    Press press;
    press.gooseneck_mm = 105;
    press.throat_mm = 6;
    const Part part = partFrom(sheet(150, 40, flange("front", "web.front", 50) + "," + flange("back", "web.back", 50)));
    const Shop shop = shopOf(press);
    const MachineNeeds needs = needsOf(part, shop);
    const FigureNeed& need = onlyFigure(needs);
    CHECK(need.figure == MachineFigure::kPunchThroat);
    CHECK(need.like.empty());
    constexpr double kHalfTurned = 46.5 * std::numbers::pi / 180;
    CHECK(std::abs(need.needs - (50 * std::sin(kHalfTurned) - 40 * std::cos(kHalfTurned))) < 2.5);
}

// 60 degrees included, and 3 more to bend for the spring-back of mild steel: the sheet must come down to 57 in the V.
TEST_CASE("A leg turned by 120 degrees asks for a V of 57, and for straight punches where all are goosenecks") {
    Press press;
    press.gooseneck_mm = 105;
    const Part part = partFrom(sheet(150, 60, flange("leg", "web.front", 40, 120)));
    const Shop shop = shopOf(press);
    const MachineNeeds needs = needsOf(part, shop);
    CHECK(onlyFigure(needs).figure == MachineFigure::kVeeAngle);
    CHECK(onlyFigure(needs).needs == 57);
}

}  // namespace tinwright::test
