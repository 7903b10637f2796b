// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <tinwright/part/edges/section.h>
#include <tinwright/part/model/pose.h>

#include "recipes.h"

using namespace tinwright;

TEST_CASE("a section is the same part as the recipe with flat lengths") {
    const Part part = sectionPart({.flats_mm = {40, 60, 40},
                                   .angles_deg = {90, 90},
                                   .thickness_mm = 1.5,
                                   .inside_radius_mm = 1,
                                   .length_mm = 200});
    Recipe recipe = test::plate(200, 40, 1.5, 1, Measured::kFlat);
    test::addFlange(recipe, "web", "base.back", 60);
    test::addFlange(recipe, "leg", "web.far", 40);
    const Part developed = develop(recipe).value();
    REQUIRE(part.bends.size() == developed.bends.size());
    const auto a = baseFromPanels(part, allFormed(part)), b = baseFromPanels(developed, allFormed(developed));
    for (std::size_t i = 0; i < a.size(); ++i) CHECK((a[i].matrix() - b[i].matrix()).norm() < 1e-9);
    CHECK(area_mm2(part.blank) == Approx(area_mm2(developed.blank)).margin(1e-3));
}

TEST_CASE("a section's chain starts where its last panel ended") {
    const Part part = sectionPart({.flats_mm = {12, 25, 50}, .angles_deg = {90, -30}, .allowance_mm = 3});
    CHECK(part.panels[1].region.outline[0].y() == Approx(15));
    CHECK(part.panels[2].region.outline[0].y() == Approx(43));
    CHECK(part.bends[0].up);
    CHECK_FALSE(part.bends[1].up);
    CHECK(part.bends[1].angle.deg() == Approx(30));
    CHECK(area_mm2(part.blank) == Approx(93 * 100));
}
