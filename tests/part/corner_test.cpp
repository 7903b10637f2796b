// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <cmath>

#include <tinwright/part/model/pose.h>

#include "recipes.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

// Nearest two corner points of the folded flanges' ends.
double endGap(const Part& part) {
    const auto poses = baseFromPanels(part, allFormed(part));
    const auto at = [&](const char* panel, std::size_t k, double z) -> Vec3 {
        const Vec2 p = panelOf(part, panel).region.outline[k];
        return poses[indexOf(part, panel)] * Vec3(p.x(), p.y(), z);
    };
    return (at("front", 0, part.thickness_mm) - at("right", 1, part.thickness_mm)).norm();
}

}  // namespace

TEST_CASE("an open corner keeps its gap in the folded part") {
    for (const double gap : {0.5, 2.0, 6.0}) {
        const auto part = develop(corner(CornerType::kOpen, gap));
        INFO(textOf(part.issues()));
        REQUIRE(part.ok());
        CHECK(endGap(part.value()) == Approx(gap).margin(1e-9));
    }
}

TEST_CASE("a butt corner without gap meets in a line") {
    CHECK(endGap(develop(corner(CornerType::kButt, 0)).value()) == Approx(0).margin(1e-9));
}

TEST_CASE("without a corner each flange ends where its parent's edge ends") {
    Recipe recipe = corner(CornerType::kOpen, 1);
    recipe.corners.clear();
    const Part part = develop(recipe).value();
    CHECK(panelOf(part, "front").region.outline[0].x() == Approx(panelOf(part, "base").region.outline[1].x()));
}

TEST_CASE("corners that are not square keep their gap too") {
    // A six-cornered tray: the edges turn by 60 degrees.
    Recipe recipe = plate(1, 1, 1, 1, Measured::kFlat);
    recipe.base.is_rectangle = false;
    for (int i = 0; i < 6; ++i) {
        const SinCos at = sinCos(Angle::degrees(60.0 * i));
        recipe.base.outline.push_back({Dimension::of(80 * at.cos), Dimension::of(80 * at.sin), "", ""});
        addFlange(recipe, "w" + std::to_string(i), "base.e" + std::to_string(i), 30);
    }
    for (int i = 0; i < 6; ++i) {
        Corner c;
        c.flange[0] = "w" + std::to_string(i);
        c.flange[1] = "w" + std::to_string((i + 1) % 6);
        c.gap = Dimension::of(1.0);
        recipe.corners.push_back(c);
    }
    const auto part = develop(recipe);
    INFO(textOf(part.issues()));
    REQUIRE(part.ok());
    const auto poses = baseFromPanels(part.value(), allFormed(part.value()));
    // The outer edges come nearest where walls turn by less than 90.
    double nearest = 1e300;
    for (const double za : {0.0, 1.0}) {
        for (const double zb : {0.0, 1.0}) {
            const Vec2 a = panelOf(part.value(), "w0").region.outline[0],
                       b = panelOf(part.value(), "w1").region.outline[1];
            nearest = std::min(nearest, (poses[indexOf(part.value(), "w0")] * Vec3(a.x(), a.y(), za) -
                                         poses[indexOf(part.value(), "w1")] * Vec3(b.x(), b.y(), zb))
                                            .norm());
        }
    }
    CHECK(nearest >= 1.0 - 1e-9);
    CHECK(nearest < 2.5);
}

TEST_CASE("walls that lean in need a mitre: said, not folded through one another") {
    Recipe recipe = corner(CornerType::kButt, 0, 120, 120);
    CHECK(hasCode(develop(recipe).issues(), "recipe.finished.collide"));
    recipe.flanges[0].left_mitre_deg = 31;
    recipe.flanges[1].right_mitre_deg = 31;
    const auto mitred = develop(recipe);
    INFO(textOf(mitred.issues()));
    CHECK(mitred.ok());
}

TEST_CASE("corner relief is cut from panel and strips") {
    const double plain = area_mm2(develop(corner(CornerType::kOpen, 3)).value().blank);
    Recipe recipe = corner(CornerType::kOpen, 3);
    recipe.corners[0].relief = ReliefShape::kSquare;
    recipe.corners[0].relief_size = Dimension::of(10);  // half of it is more than a strip's width
    const Part square = develop(recipe).value();
    CHECK(area_mm2(square.blank) < plain - 25);
    CHECK(square.bends[0].spans[0].from_mm == Approx(5).margin(1e-9));
    recipe.corners[0].relief = ReliefShape::kRound;
    const Part round = develop(recipe).value();
    CHECK(area_mm2(round.blank) > area_mm2(square.blank));
    CHECK(area_mm2(round.blank) < plain);
}

TEST_CASE("a corner that points into the panel is refused") {
    Recipe recipe = plate(1, 1, 1, 1, Measured::kFlat);
    recipe.base.is_rectangle = false;
    const double xy[][2] = {{0, 0}, {100, 0}, {100, 40}, {50, 40}, {50, 80}, {0, 80}};
    for (const auto& p : xy) recipe.base.outline.push_back({Dimension::of(p[0]), Dimension::of(p[1]), "", ""});
    addFlange(recipe, "a", "base.e2", 10);
    addFlange(recipe, "b", "base.e3", 10);
    Corner c;
    c.flange[0] = "a";
    c.flange[1] = "b";
    c.gap = Dimension::of(1);
    recipe.corners.push_back(c);
    CHECK(hasCode(develop(recipe).issues(), "recipe.corner"));
    recipe.corners[0].flange[1] = "a";
    CHECK(hasCode(develop(recipe).issues(), "recipe.corner.adjacent"));
}
