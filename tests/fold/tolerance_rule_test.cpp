// SPDX-License-Identifier: GPL-3.0-or-later
// What holds over the tolerances against rules of the trade: the largest string between standing walls, and defaults.

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/tooling/bar_profile.h>
#include <tinwright/fold/engine/fold_engine.h>
#include <tinwright/part/developing/develop.h>

using namespace tinwright;

namespace {

constexpr double kWidth_mm = 100;  // outside, over the two standing walls
constexpr double kWall_mm = 60;
constexpr double kThickness_mm = 1.5;
constexpr double kRadius_mm = 1;
constexpr double kBarHeight_mm = 25;
constexpr double kRelief_mm = 2.5;

// A floor with walls left and right, and a front flange between them that is folded last.
Part tray() {
    Recipe recipe;
    recipe.name = "tray";
    recipe.sheet = {"mild-steel", kThickness_mm, "", {}, Film::kNone};
    recipe.inside_radius_mm = kRadius_mm;
    recipe.measured = Measured::kOutside;
    recipe.base.width = Dimension::of(kWidth_mm);
    recipe.base.depth = Dimension::of(80);
    for (const auto& [side, length] :
         {std::pair("left", kWall_mm), std::pair("right", kWall_mm), std::pair("front", 20.0)}) {
        Flange flange;
        flange.name = side;
        flange.on = std::string("base.") + side;
        flange.length = Dimension::of(length);
        flange.from_left = Dimension::of(std::string(side) == "front" ? 8 : 12);
        flange.from_right = flange.from_left;
        recipe.flanges.push_back(flange);
    }
    Result<Part> part = develop(recipe);
    if (!part.ok()) FAIL(toText(part.issues().front()));
    return std::move(part).value();
}

// One bar of this width on a magnetic folder, its lower corners cut back past the walls' inside radius: nothing above.
Shop shopWith(double bar_mm, const Tolerances& tolerances) {
    Shop shop;
    Brake brake;
    brake.name = "folder";
    brake.length_mm = 600;
    brake.leaf().leaf_faces = {{"full", 25, 12}};
    brake.leaf().nose_radius_mm = kRadius_mm;
    brake.leaf().bed = {Vec2(0, -50), Vec2(110, -50), Vec2(110, 0), Vec2(0, 0)};
    Bar bar;
    bar.id = "bar";
    bar.width_mm = bar_mm;
    NoseSection nose;
    nose.nose_angle = Angle::degrees(45);
    nose.radius_mm = kRadius_mm;
    nose.clamp_depth_mm = 50;
    nose.height_mm = kBarHeight_mm;
    bar.profile = barSection(nose);
    bar.clamp_depth_mm = clampDepth_mm(bar.profile);
    bar.height_mm = height_mm(bar.profile);
    bar.end_relief_mm = kRelief_mm;
    bar.end_relief_height_mm = 4;
    brake.leaf().bars = {bar};
    shop.brakes = {brake};
    shop.limits.uncovered_end_mm = 20;
    shop.limits.plus_side_mm = 0;
    shop.tolerances = tolerances;
    return shop;
}

bool holds(const Part& part, double bar_mm, const Tolerances& tolerances) {
    const Shop shop = shopWith(bar_mm, tolerances);
    FoldEngine engine(part, shop, inSetup(shop.brakes[0], part.thickness_mm), Demand::kHolds);
    return engine.check(bit(BendId{0}) | bit(BendId{1}), {bit(BendId{2}), Side::kParent}).answer ==
           StrokeAnswer::kPossible;
}

double widestBar_mm(const Part& part, const Tolerances& tolerances) {
    double fits = 50, too_wide = 110;
    while (too_wide - fits > 0.01) {
        const double width = 0.5 * (fits + too_wide);
        (holds(part, width, tolerances) ? fits : too_wide) = width;
    }
    return fits;
}

}  // namespace

// Largest string = inside width − 2·max(0, r − end relief) − 2·h·tan(angle tolerance) − bend-line tolerance, h the
// bar's height (shared/practice.md section 2, from the geometry); each of the two walls has a bend line of its own
// here.
TEST_CASE("tolerances: the widest bar between standing walls comes out as the rule of the trade has it") {
    const Part part = tray();
    const double inside_mm = kWidth_mm - 2 * kThickness_mm;
    // No wider than the rule but for the contact tolerance; narrower by what the rule does not count: the strip's own
    // length, second order.
    for (const double angle_deg : {0.0, 0.5, 1.0, 2.0}) {
        for (const double line_mm : {0.0, 0.3}) {
            Tolerances tolerances;
            tolerances.thickness_mm = 0;
            tolerances.cutting_mm = 0;
            tolerances.bend_line_mm = line_mm;
            tolerances.bend_angle = Angle::degrees(angle_deg);
            const double rule_mm = inside_mm - 2 * std::max(0.0, kRadius_mm - kRelief_mm) -
                                   2 * kBarHeight_mm * std::tan(tolerances.bend_angle.rad()) - 2 * line_mm;
            const double widest_mm = widestBar_mm(part, tolerances);
            INFO(fmt::format("±{}°, ±{} mm: widest bar {:.2f}, by the rule {:.2f}", angle_deg, line_mm, widest_mm,
                             rule_mm));
            CHECK(widest_mm < rule_mm + 2 * 0.05 + 0.02);
            CHECK(widest_mm > rule_mm - 0.05 - 0.25 * angle_deg);
        }
    }
}

TEST_CASE("tolerances: what lacks is told, and what it is between") {
    const Part part = tray();
    Tolerances tolerances;
    tolerances.thickness_mm = 0;
    tolerances.cutting_mm = 0;
    tolerances.bend_line_mm = 0;
    tolerances.bend_angle = Angle::degrees(1);
    const Shop shop = shopWith(96.5, tolerances);
    FoldEngine engine(part, shop, inSetup(shop.brakes[0], part.thickness_mm));
    const Stroke stroke{bit(BendId{2}), Side::kParent};
    const BendMask formed = bit(BendId{0}) | bit(BendId{1});
    const StrokeResult result = engine.check(formed, stroke);
    REQUIRE(result.answer == StrokeAnswer::kPossible);
    const Holding holding = engine.holding(formed, stroke, result);
    INFO(toText(holding.open) << " " << holding.lacks_mm);
    CHECK_FALSE(holding.holds);
    CHECK(holding.open == Holding::Open::kStroke);
    CHECK(holding.between[1] == BodyRef(BodyRef::Kind::kBar, ToolId{0}));
    REQUIRE(holding.between[0].kind == BodyRef::Kind::kPanel);
    const std::string& wall = part.panel(holding.between[0].panel()).name;
    CHECK((wall == "left" || wall == "right"));
    // 0.25 mm of room at each end, and the wall leans in by h·tan 1° = 0.44 mm at the bar's top, and a little for what
    // else an angle does.
    CHECK(holding.lacks_mm > 0.44 - 0.25 - 0.06);
    CHECK(holding.lacks_mm < 0.44 - 0.25 + 0.15);
}

TEST_CASE("tolerances: defaults by the panel's size, and the shop's own") {
    const Part part = tray();
    Shop shop = shopWith(50, {});
    const ToleranceBox box = shop.tolerancesFor(part);
    // ISO 2768-1 class m: over 30 to 120 mm 0.3, over 6 to 30 mm 0.2; its sizes are those of the panels between the
    // strips.
    REQUIRE(box.cutting_mm.size() == 4);
    CHECK(box.leastCutting_mm() == 0.3);
    CHECK(box.mostCutting_mm() == 0.3);
    CHECK(box.thickness_mm == Approx(0.07 * kThickness_mm));  // common practice
    CHECK(box.bend_angle.deg() == Approx(1));                 // common practice
    shop.cutting = cuttingOf(CutProcess::kPlasma);
    CHECK(shop.tolerancesFor(part).mostCutting_mm() == 0.7);  // ISO 9013 class 2, over 1 to 3.15 mm, from 35 to under
                                                              // 125 mm
    shop.tolerances.cutting_mm = 0.15;
    shop.tolerances.thickness_mm = 0.05;
    CHECK(shop.tolerancesFor(part).mostCutting_mm() == 0.15);
    CHECK(shop.tolerancesFor(part).thickness_mm == 0.05);
}
