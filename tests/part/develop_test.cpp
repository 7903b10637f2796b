// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <cmath>

#include "recipes.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

OutlinePoint point(double x, double y, const std::string& edge = {}) {
    return {Dimension::of(x), Dimension::of(y), edge, "/base/outline"};
}

// A plate 100 x 60 whose front edge has a notch 30 wide and 15 deep; the notch's bottom carries a tab.
Recipe notched(double tab_width) {
    Recipe recipe = plate(1, 1, 1, 1, Measured::kFlat);
    recipe.base.is_rectangle = false;
    recipe.base.outline = {point(0, 0),  point(35, 0),  point(35, 15, "seat"), point(65, 15),
                           point(65, 0), point(100, 0), point(100, 60),        point(0, 60)};
    addFlange(recipe, "tab", "base.seat", 40).width = Dimension::of(tab_width);
    return recipe;
}

double stripArea(const Part& part) {
    double area = 0;
    for (const Bend& bend : part.bends) {
        for (const StripSpan& span : bend.spans) area += bend.allowance_mm * (span.to_mm - span.from_mm);
    }
    return area;
}

}  // namespace

TEST_CASE("the blank is panels and strips, with nothing lost and nothing twice") {
    Recipe recipe = plate(200, 150, 1.5, 1, Measured::kOutside);
    for (const char* side : {"front", "right", "back", "left"})
        addFlange(recipe, side, std::string("base.") + side, 50);
    const Part part = develop(recipe).value();
    double area = stripArea(part);
    for (const Panel& panel : part.panels) area += area_mm2(panel.region);
    CHECK(area_mm2(part.blank) == Approx(area).margin(1e-3));
    CHECK(part.bends.size() == 4);
    for (const Bend& bend : part.bends)
        CHECK(bend.along.x() * bend.toward_child.y() - bend.along.y() * bend.toward_child.x() == Approx(1));
}

TEST_CASE("a tab inset in a notch develops, and is refused when it lies against the notch's sides") {
    const auto part = develop(notched(20));
    INFO(textOf(part.issues()));
    REQUIRE(part.ok());
    CHECK(part.value().bends[0].spans[0].to_mm - part.value().bends[0].spans[0].from_mm == Approx(20));
    CHECK(hasCode(develop(notched(30)).issues(), "recipe.blank.touch"));
    CHECK(hasCode(develop(notched(31)).issues(), "recipe.off-edge"));
}

TEST_CASE("partial flanges: offsets, width with an offset, and centred") {
    Recipe recipe = plate(100, 60, 1, 1, Measured::kFlat);
    Flange& a = addFlange(recipe, "a", "base.front", 20);
    a.from_left = Dimension::of(10);
    a.from_right = Dimension::of(30);
    Flange& b = addFlange(recipe, "b", "base.back", 20);
    b.width = Dimension::of(25);
    b.from_right = Dimension::of(5);
    addFlange(recipe, "c", "base.left", 20).width = Dimension::of(40);
    const Part part = develop(recipe).value();
    // Front, seen with the base above it turned round: the left end is at high x.
    CHECK(part.bends[0].spans[0].from_mm == Approx(10));
    CHECK(part.bends[0].spans[0].to_mm == Approx(70));
    CHECK(panelOf(part, "a").region.outline[0].x() == Approx(90));
    CHECK(part.bends[1].spans[0].from_mm == Approx(70));
    CHECK(part.bends[2].spans[0].from_mm == Approx(10));
}

TEST_CASE("an offset from the inside face of the flange beside") {
    Recipe recipe = plate(100, 60, 1, 2, Measured::kFlat);
    addFlange(recipe, "right", "base.right", 20);
    Flange& front = addFlange(recipe, "front", "base.front", 20);
    front.from_left = Dimension::of(10);  // its left end is at the right wall
    front.from_left.measured = Measured::kInside;
    const Part part = develop(recipe).value();
    CHECK(part.bends[1].spans[0].from_mm == Approx(8));  // the inside face stands r = 2 out
}

TEST_CASE("flanges of different radius on one edge: say flat") {
    Recipe recipe = plate(100, 60, 1, 1, Measured::kOutside);
    Flange& a = addFlange(recipe, "a", "base.front", 20);
    a.width = Dimension::of(20);
    a.from_left = Dimension::of(5);
    Flange& b = addFlange(recipe, "b", "base.front", 20);
    b.width = Dimension::of(20);
    b.from_right = Dimension::of(5);
    b.inside_radius_mm = 3;
    CHECK(hasCode(develop(recipe).issues(), "recipe.edge.mixed"));
    recipe.base.depth.measured = Measured::kFlat;
    CHECK(develop(recipe).ok());
}

TEST_CASE("what cannot be is said: too short, overlapping, inside one another") {
    Recipe recipe = plate(100, 60, 1.5, 1, Measured::kOutside);
    addFlange(recipe, "a", "base.front", 2);
    CHECK(hasCode(develop(recipe).issues(), "recipe.flat-length"));

    // Two flanges on one spot of an edge.
    recipe = plate(100, 60, 1, 1, Measured::kFlat);
    addFlange(recipe, "a", "base.front", 20);
    addFlange(recipe, "b", "base.front", 10).width = Dimension::of(30);
    CHECK(hasCode(develop(recipe).issues(), "recipe.blank.overlap"));

    // Lips as deep as half the tray and more run into one another; so do legs that lean together.
    recipe = plate(100, 60, 1, 1, Measured::kOutside);
    addFlange(recipe, "a", "base.front", 30);
    addFlange(recipe, "b", "base.back", 30);
    addFlange(recipe, "lip_a", "a.far", 35);
    addFlange(recipe, "lip_b", "b.far", 35);
    CHECK(hasCode(develop(recipe).issues(), "recipe.finished.collide"));
    recipe.flanges[2].length = recipe.flanges[3].length = Dimension::of(29.5);
    CHECK(develop(recipe).ok());
}

TEST_CASE("inch and mm give the same part") {
    Recipe mm = plate(8 * 25.4, 6 * 25.4, 0.0598 * 25.4, 0.04 * 25.4, Measured::kOutside);
    addFlange(mm, "a", "base.front", 2 * 25.4, 75);
    const Part part = develop(mm).value();
    CHECK(part.bends[0].allowance_mm / 25.4 ==
          Approx(kFactorAllowance_mm(Angle::degrees(75), 0.04, 0.0598, 0.44)).epsilon(1e-13));
}

TEST_CASE("dimensions: references, sums, locks and tweaks by name") {
    Recipe recipe = plate(100, 60, 1, 1, Measured::kOutside);
    recipe.base.width.name = "w";
    recipe.base.width.locked = true;
    addFlange(recipe, "a", "base.front", 20);
    recipe.flanges[0].length.is = "w";
    recipe.flanges[0].length.plus_mm = -70;
    const double first = area_mm2(develop(recipe).value().panels[1].region);
    Dimension* width = findDimension(recipe, "w");
    REQUIRE(width != nullptr);
    CHECK(width->locked);
    width->value_mm = 110;
    const double second = area_mm2(develop(recipe).value().panels[1].region);
    CHECK(first == Approx(100 * 28.0));
    CHECK(second == Approx(110 * 38.0));
    CHECK(findDimension(recipe, "nothing") == nullptr);
}

TEST_CASE("every free straight edge has its name") {
    Recipe recipe = plate(100, 60, 1, 1, Measured::kFlat);
    addFlange(recipe, "tab", "base.front", 20).width = Dimension::of(30);
    const Part part = develop(recipe).value();
    std::string names;
    for (const NamedEdge& edge : part.edges) names += edge.name + " ";
    CHECK(names == "base.front base.right base.back base.left tab.right tab.far tab.left ");
    CHECK((part.edges[0].to - part.edges[0].from).norm() == Approx(35));  // the longer of what the tab leaves; both are
                                                                          // 35
}
