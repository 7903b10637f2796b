// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/way_in_words.h"

#include <catch2/catch.hpp>

using namespace tinwright;
using report::wayInWords;
using Kind = ExitMove::Kind;

TEST_CASE("a way in is its way out told backwards") {
    CHECK(wayInWords({Kind::kPartUp, -1, {{0, 0, 900, 0}}, "lift the part off"}) == "lower it into its place");
    CHECK(wayInWords({Kind::kPartAlong, -1, {{-900, 0, 0, 0}}, ""}) == "slide it in along the machine from the left");
    CHECK(wayInWords({Kind::kPieceUp, 0, {{0, 0, 900, 0}}, "lift out"}) == "set it down");
    CHECK(wayInWords({Kind::kPieceBack, 0, {{0, 900, 0, 0}}, "draw out to the back"}) == "push it in from the back");
    CHECK(wayInWords({Kind::kPieceAlong, 0, {{-900, 0, 0, 0}}, "slide off the end"}) == "slide it in from the left");
}

TEST_CASE("where a piece is set down beside its place, and the way from there") {
    CHECK(wayInWords({Kind::kPieceAlong, 0, {{5, 0, 0, 0}, {5, 0, 900, 0}}, ""}) ==
          "set it down 5 mm right of its place, then slide it to the left");
    CHECK(wayInWords({Kind::kPieceAlong, 0, {{0, 12, 0, 0}, {0, 12, 900, 0}}, ""}) ==
          "set it down 12 mm behind its place, then draw it forward");
    CHECK(wayInWords({Kind::kPieceAlong, 0, {{-5, 0, 0, 0}, {-5, 12, 0, 0}, {-5, 12, 900, 0}}, ""}) ==
          "set it down 12 mm behind and 5 mm left of its place, then draw it forward, then slide it to the right");
    CHECK(wayInWords({Kind::kPieceAlong, 0, {{0, 0, 30, 0}, {8, 0, 30, 0}, {8, -900, 30, 0}}, ""}) ==
          "put it in from the front 8 mm right of its place, slide it to the left and fasten it");
}
