// SPDX-License-Identifier: GPL-3.0-or-later
// Seams against what the recipe's corners say (their gaps and laps are dimensions) and plain geometry of the folded
// part.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include <tinwright/part/edges/seams.h>
#include <tinwright/part/edges/section.h>

#include "recipes.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

std::vector<Seam> seamsOf(const Recipe& recipe) {
    const auto part = develop(recipe);
    INFO(textOf(part.issues()));
    REQUIRE(part.ok());
    return weldSeams(part.value());
}

}  // namespace

TEST_CASE("an open corner is a seam as long as the lower wall, with its gap") {
    for (const double gap : {0.5, 1.0, 2.5}) {
        const std::vector<Seam> seams = seamsOf(corner(CornerType::kOpen, gap));
        REQUIRE(seams.size() == 1);
        CHECK(seams[0].kind == SeamKind::kOpenCorner);
        CHECK(seams[0].least_gap_mm == Approx(gap).margin(1e-6));
        CHECK(seams[0].most_gap_mm == Approx(gap).margin(1e-6));
        CHECK(seams[0].length_mm == Approx(25 - 3.5).margin(1e-6));  // less the outside of the bend, r + t
        CHECK(seams[0].angle_deg == Approx(90).margin(1e-6));
        CHECK(seams[0].edges == std::vector<std::string>{"front.left", "right.right"});
    }
}

TEST_CASE("a corner that gapes wide is no seam") {
    CHECK(bridgedGap_mm(1.5) == 3.0);
    CHECK(bridgedGap_mm(4) == 8.0);
    CHECK(seamsOf(corner(CornerType::kOpen, 7.9)).size() == 1);
    CHECK(seamsOf(corner(CornerType::kOpen, 8.1)).empty());
}

TEST_CASE("ends drawn back for overbend open the corner upwards") {
    Recipe recipe = corner(CornerType::kOpen, 1);
    recipe.flanges[0].left_mitre_deg = recipe.flanges[1].right_mitre_deg = 3;
    const std::vector<Seam> seams = seamsOf(recipe);
    REQUIRE(seams.size() == 1);
    CHECK(seams[0].least_gap_mm == Approx(1).margin(0.05));
    // Both ends lean away by tan 3 of the height over the bend; the gap runs at 45 degrees between the inside corners.
    CHECK(seams[0].most_gap_mm ==
          Approx(seams[0].least_gap_mm + std::sqrt(2.0) * (25 - 3.5) * std::tan(3 * 3.14159265 / 180)).margin(0.2));
}

TEST_CASE("butt corners are open, overlapping ones lapped by the flange that runs on") {
    const std::vector<Seam> butt = seamsOf(corner(CornerType::kButt, 0));
    REQUIRE(butt.size() == 1);
    CHECK(butt[0].kind == SeamKind::kOpenCorner);
    CHECK(butt[0].most_gap_mm == Approx(0).margin(1e-6));

    Recipe recipe = corner(CornerType::kOverlap, 0.3);
    const auto lapped = develop(recipe);
    REQUIRE(lapped.ok());
    const std::vector<Seam> seams = weldSeams(lapped.value());
    REQUIRE(seams.size() == 1);
    CHECK(seams[0].kind == SeamKind::kLappedCorner);
    CHECK(lapped.value().panel(seams[0].a).name == "front");
    CHECK(seams[0].most_gap_mm == Approx(0.3).margin(1e-6));
}

TEST_CASE("walls that lean out keep the angle between them") {
    // Two planes leaning 45 degrees out over edges that are square to one another: their normals have an angle of 60
    // degrees, and the ridge runs out by cos 45 of the slope, so that straight ends would gape.
    CHECK(seamsOf(corner(CornerType::kOpen, 0.5, 45, 45)).empty());
    Recipe recipe = corner(CornerType::kOpen, 0.5, 45, 45);
    recipe.flanges[0].left_mitre_deg = recipe.flanges[1].right_mitre_deg = -35.26439;
    const std::vector<Seam> seams = seamsOf(recipe);
    REQUIRE(seams.size() == 1);
    CHECK(seams[0].angle_deg == Approx(120).margin(1e-4));
}

TEST_CASE("a closed duct has one butt seam over its whole length") {
    Section duct;
    duct.thickness_mm = 1.5;
    duct.inside_radius_mm = 1.5;
    duct.length_mm = 240;
    duct.flats_mm = {57, 117, 117, 117, 57};
    duct.angles_deg = {90, 90, 90, 90};
    const std::vector<Seam> seams = weldSeams(sectionPart(duct));
    REQUIRE(seams.size() == 1);
    CHECK(seams[0].kind == SeamKind::kButt);
    CHECK(seams[0].length_mm == Approx(240));
    CHECK(seams[0].angle_deg == Approx(180).margin(1e-6));
    // The faces are 117 + 2 x 1.5 mm inside; the two halves of the fourth one leave 3 mm of it.
    CHECK(seams[0].most_gap_mm == Approx(3).margin(1e-6));
}

TEST_CASE("an edge that stands on the middle of a face, and one that lies flat on it") {
    Section tee;
    tee.thickness_mm = 1;
    tee.inside_radius_mm = 1;
    tee.length_mm = 80;
    // Base, wall, top, and a leg down whose edge stands 0.5 mm over the base.
    tee.flats_mm = {60, 40, 20, 39.5};
    tee.angles_deg = {90, 90, 90};
    const std::vector<Seam> standing = weldSeams(sectionPart(tee));
    REQUIRE(standing.size() == 1);
    CHECK(standing[0].kind == SeamKind::kOnFace);
    CHECK(standing[0].length_mm == Approx(80));
    // The leg starts 2 mm (r + t, less t of the base's own face) below the top's face, as the wall ends 1 mm over the
    // base's.
    CHECK(standing[0].most_gap_mm == Approx(1.5).margin(1e-6));
    CHECK(standing[0].angle_deg == Approx(90).margin(1e-6));

    Section folded_flat = tee;
    folded_flat.flats_mm = {60, 10, 20, 8, 12};
    folded_flat.angles_deg = {90, 90, 90, -90};
    const std::vector<Seam> lying = weldSeams(sectionPart(folded_flat));
    REQUIRE(lying.size() == 1);
    CHECK(lying[0].kind == SeamKind::kLap);
    CHECK(lying[0].angle_deg == 0);
    CHECK(lying[0].edges.size() == 3);
    CHECK(lying[0].length_mm == Approx(80 + 2 * 12));
    CHECK(lying[0].most_gap_mm == Approx(1).margin(1e-6));
}

TEST_CASE("a slit between two tabs is no seam") {
    Recipe recipe = plate(100, 60, 1.5, 2, Measured::kOutside);
    Flange& left = addFlange(recipe, "left", "base.back", 20);
    left.from_left = Dimension::of(0);
    left.width = Dimension::of(49);
    Flange& right = addFlange(recipe, "right", "base.back", 20);
    right.from_right = Dimension::of(0);
    right.width = Dimension::of(49);
    CHECK(seamsOf(recipe).empty());
}
