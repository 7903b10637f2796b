// SPDX-License-Identifier: GPL-3.0-or-later
// Published blank lengths, through the whole way from recipe to blank.
#include <catch2/catch.hpp>

#include "recipes.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

constexpr double kIn = 25.4;

double developedLength(const Recipe& recipe) {
    const auto part = develop(recipe);
    INFO(textOf(part.issues()));
    REQUIRE(part.ok());
    return blankDepth(part.value());
}

Recipe channel(double leg, double web, double t, double r, AllowanceChoice rule,
               Measured measured = Measured::kOutside) {
    Recipe recipe = plate(100, web, t, r, measured);
    recipe.allowance = rule;
    addFlange(recipe, "a", "base.front", leg);
    addFlange(recipe, "b", "base.back", leg);
    return recipe;
}

}  // namespace

// FAA-H-8083-31 U-channel (widths read, developed width from memory; the handbook truncates twice).
TEST_CASE("blank of the FAA U-channel") {
    const double length =
        developedLength(channel(1.00 * kIn, 2.00 * kIn, 0.040 * kIn, 0.16 * kIn, {AllowanceRule::kHandbook, 0}));
    CHECK(length / kIn == Approx(3.74).margin(0.020));
    CHECK(length / kIn == Approx(3.7581).margin(0.0001));
}

// US shop text, sheetmetalworkbook.com/90bends.htm: outside 0.740 0.420 1.050 1.000 in a chain.
TEST_CASE("blank of the US shop text's four-leg chain") {
    Recipe recipe = plate(3 * kIn, 0.420 * kIn, 0.050 * kIn, 0.032 * kIn, Measured::kOutside);
    recipe.allowance.rule = AllowanceRule::kHandbook;
    addFlange(recipe, "a", "base.front", 0.740 * kIn);
    addFlange(recipe, "b", "base.back", 1.050 * kIn, 90, false);
    addFlange(recipe, "c", "b.far", 1.000 * kIn);
    CHECK(developedLength(recipe) / kIn == Approx(2.973).margin(0.0015));
}

// DIN table-book page (read): legs 16 and 21 at an opening of 60 degrees, r 6, s 5.
TEST_CASE("blank of the DIN table-book example") {
    Recipe recipe = plate(50, 16, 5, 6, Measured::kOutside);
    recipe.allowance.rule = AllowanceRule::kDin6935;
    addFlange(recipe, "b", "base.back", 21, 120);
    CHECK(developedLength(recipe) == Approx(31.1771).margin(0.0005));
}

// A page that circulates prints 100.41 for 50 + 50 with r = s = 3; the standard's formula gives 94.24 outside, 100.24
// inside.
TEST_CASE("blank of 50 + 50, r = s = 3, by DIN") {
    for (const auto& [measured, length] :
         {std::pair(Measured::kOutside, 94.24), std::pair(Measured::kInside, 100.24)}) {
        Recipe recipe = plate(50, 50, 3, 3, measured);
        recipe.allowance.rule = AllowanceRule::kDin6935;
        addFlange(recipe, "b", "base.back", 50);
        CHECK(developedLength(recipe) == Approx(length).margin(0.006));
    }
}

// Groover example (from memory): 38 and 25 to the tangents, 60 degrees turned.
TEST_CASE("blank of the Groover example, flat legs") {
    Recipe recipe = plate(44.5, 38, 3.2, 4.75, Measured::kFlat);
    recipe.allowance.k = 0.33;
    addFlange(recipe, "b", "base.back", 25, 60);
    CHECK(developedLength(recipe) == Approx(69.08).margin(0.005));
}

// Tabellenbuch Metall (from memory): 25 + 20 + 15, r 4, s 2 by DIN; the book rounds v to 4.5 and prints 51.
TEST_CASE("blank of 25 + 20 + 15 by DIN") {
    Recipe recipe = plate(60, 20, 2, 4, Measured::kOutside);
    recipe.allowance.rule = AllowanceRule::kDin6935;
    addFlange(recipe, "a", "base.front", 25);
    addFlange(recipe, "b", "base.back", 15);
    CHECK(developedLength(recipe) == Approx(51).margin(0.1));
}
