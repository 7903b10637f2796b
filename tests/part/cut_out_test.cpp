// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <cmath>

#include <tinwright/part/model/pose.h>

#include "recipes.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

CutOutPlace from(const std::string& edge, Datum datum, double distance, To to = To::kCentre) {
    return {edge, datum, Dimension::of(distance), to, "/cut_outs/0/at/0"};
}

CutOut circle(const std::string& on, double diameter, CutOutPlace a, CutOutPlace b) {
    CutOut cut;
    cut.name = "hole";
    cut.on = on;
    cut.diameter = Dimension::of(diameter);
    cut.at[0] = std::move(a);
    cut.at[1] = std::move(b);
    cut.place = "/cut_outs/0";
    return cut;
}

CutOut window(const std::string& on, double w, double h, CutOutPlace a, CutOutPlace b) {
    CutOut cut = circle(on, 0, std::move(a), std::move(b));
    cut.shape = CutOutShape::kRectangle;
    cut.width = Dimension::of(w);
    cut.height = Dimension::of(h);
    return cut;
}

// t 1.5, r 1, walls 40 front and left, outside dimensions.
Recipe tray() {
    Recipe recipe = plate(120, 90, 1.5, 1, Measured::kOutside);
    addFlange(recipe, "front", "base.front", 40);
    addFlange(recipe, "left", "base.left", 40);
    return recipe;
}

Vec2 centreOf(const Polygon& polygon) {
    Vec2 lo = polygon[0], hi = polygon[0];
    for (const Vec2& p : polygon) lo = lo.cwiseMin(p), hi = hi.cwiseMax(p);
    return 0.5 * (lo + hi);
}

Vec2 holeCentre(const Recipe& recipe, const std::string& panel) {
    const auto part = develop(recipe);
    INFO(textOf(part.issues()));
    REQUIRE(part.ok());
    REQUIRE(panelOf(part.value(), panel).region.holes.size() == 1);
    return centreOf(panelOf(part.value(), panel).region.holes[0]);
}

}  // namespace

TEST_CASE("each datum of a cut-out, against hand arithmetic") {
    // Setbacks at 90 degrees: inside r = 1, outside r + t = 2.5. Flat base: 117.5 x 87.5 from the tangent lines.
    const double ba = kFactorAllowance_mm(Angle::degrees(90), 1, 1.5, 0.44);
    struct Case {
        Datum datum;
        double x;
    };
    const Case cases[] = {
        {Datum::kInside, 30 - 1.0}, {Datum::kOutside, 30 - 2.5}, {Datum::kBlank, 30 + 37.5 - (37.5 + ba) - 37.5}};
    for (const Case& c : cases) {
        Recipe recipe = tray();
        const double distance = c.datum == Datum::kBlank ? 30 + 37.5 : 30;
        recipe.cut_outs.push_back(circle("base", 8, from("left", c.datum, distance), from("back", Datum::kEdge, 20)));
        const Vec2 centre = holeCentre(recipe, "base");
        const double expected = c.datum == Datum::kBlank ? distance - (37.5 + ba) : c.x;
        CHECK(centre.x() == Approx(expected).margin(1e-9));
        CHECK(centre.y() == Approx(87.5 - 20).margin(1e-9));
    }
}

TEST_CASE("a hole at a height over the inside face stands there in the folded part") {
    Recipe recipe = tray();
    recipe.cut_outs.push_back(circle("front", 6, from("near", Datum::kInside, 22), from("right", Datum::kEdge, 50)));
    const Vec2 flat = holeCentre(recipe, "front");
    const Part part = develop(recipe).value();
    const Vec3 folded = baseFromPanels(part, allFormed(part))[indexOf(part, "front")] * Vec3(flat.x(), flat.y(), 0);
    CHECK(folded.z() == Approx(1.5 + 22).margin(1e-9));  // the inside face of the base is its drawn face, z = t
}

TEST_CASE("to the near and far side of a cut-out") {
    Recipe recipe = tray();
    recipe.cut_outs.push_back(window("base", 30, 20, from("left", Datum::kInside, 25, To::kNearSide),
                                     from("back", Datum::kEdge, 60, To::kFarSide)));
    const Vec2 centre = holeCentre(recipe, "base");
    CHECK(centre.x() == Approx(25 - 1 + 15).margin(1e-9));
    CHECK(centre.y() == Approx(87.5 - 60 + 10).margin(1e-9));
}

TEST_CASE("slot and polygon, turned") {
    Recipe recipe = tray();
    CutOut slot = window("base", 20, 8, from("right", Datum::kEdge, 40), from("back", Datum::kEdge, 40));
    slot.shape = CutOutShape::kSlot;
    slot.turn_deg = 90;
    recipe.cut_outs.push_back(slot);
    const Part part = develop(recipe).value();
    const Polygon& hole = panelOf(part, "base").region.holes.at(0);
    double lo = 1e300, hi = -1e300;
    for (const Vec2& p : hole) lo = std::min(lo, p.y()), hi = std::max(hi, p.y());
    CHECK(hi - lo == Approx(20).margin(1e-9));
    CHECK(signedArea_mm2(hole) == Approx(12 * 8 + 3.14159265 * 16).margin(0.8));
    CHECK(signedArea_mm2(hole) < 12 * 8 + 3.14159265 * 16);  // inscribed: never more hole than there is
}

TEST_CASE("a window across a bend leaves the strip in two spans") {
    Recipe recipe = plate(120, 90, 1.5, 1, Measured::kOutside);
    addFlange(recipe, "front", "base.front", 40);
    recipe.cut_outs.push_back(window("base", 30, 30, from("left", Datum::kEdge, 60), from("front", Datum::kInside, 2)));
    const auto developed = develop(recipe);
    INFO(textOf(developed.issues()));
    REQUIRE(developed.ok());
    const Part& part = developed.value();
    REQUIRE(part.bends[0].spans.size() == 2);
    CHECK(part.bends[0].spans[0].to_mm == Approx(45));
    CHECK(part.bends[0].spans[1].from_mm == Approx(75));
    CHECK(part.blank.holes.size() == 1);
    CHECK(part.warnings.empty());
    CHECK(panelOf(part, "front").region.outline.size() > 4);
}

TEST_CASE("a hole that runs into a bend without crossing it is warned of") {
    Recipe recipe = plate(120, 90, 1.5, 1, Measured::kOutside);
    addFlange(recipe, "front", "base.front", 40);
    recipe.cut_outs.push_back(circle("base", 10, from("left", Datum::kEdge, 60), from("front", Datum::kInside, 5)));
    const Part part = develop(recipe).value();
    REQUIRE(part.warnings.size() == 1);
    CHECK(part.bends[0].spans.size() == 1);
    CHECK_THAT(part.warnings[0], Catch::Contains("runs into bend front"));
}

TEST_CASE("cut-outs off the sheet, off the panel, from parallel edges or a face that is not there") {
    const auto codes = [](CutOut cut) {
        Recipe recipe = tray();
        recipe.cut_outs.push_back(std::move(cut));
        return develop(recipe).issues();
    };
    CHECK(hasCode(codes(circle("base", 10, from("right", Datum::kEdge, 3), from("back", Datum::kEdge, 30))),
                  "recipe.cut-out.off-sheet"));
    CHECK(hasCode(codes(circle("base", 10, from("right", Datum::kEdge, -30), from("back", Datum::kEdge, 30))),
                  "recipe.cut-out.off-panel"));
    CHECK(hasCode(codes(circle("base", 10, from("right", Datum::kEdge, 30), from("left", Datum::kInside, 30))),
                  "recipe.cut-out.from"));
    CHECK(hasCode(codes(circle("base", 10, from("right", Datum::kInside, 30), from("back", Datum::kEdge, 30))),
                  "recipe.cut-out.datum"));
    CHECK(hasCode(codes(circle("base", 10, from("left", Datum::kEdge, 30), from("back", Datum::kEdge, 30))),
                  "recipe.cut-out.datum"));
    CHECK(hasCode(codes(window("base", 20, 300, from("right", Datum::kEdge, 30), from("back", Datum::kEdge, 30))),
                  "recipe.cut-out.off-sheet"));
    CutOut notch = circle("base", 10, from("right", Datum::kEdge, 3), from("back", Datum::kEdge, 30));
    notch.notch = true;
    CHECK(codes(notch).empty());
    CutOut through = window("base", 20, 300, from("right", Datum::kEdge, 30), from("back", Datum::kEdge, 30));
    through.notch = true;
    CHECK(hasCode(codes(through), "recipe.panel.split"));
}
