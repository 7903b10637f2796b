// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/way_words.h"

#include <catch2/catch.hpp>

using namespace tinwright;
using report::wayInWords;
using report::wayOutWords;
using Kind = ExitMove::Kind;

TEST_CASE("a way in is its way out told backwards") {
    CHECK(wayInWords({Kind::kPartUp, -1, {{0, 0, 900, 0}}}) == "lower it into its place");
    CHECK(wayInWords({Kind::kPartAlong, -1, {{-900, 0, 0, 0}}}) == "slide it in along the machine from the left");
    CHECK(wayInWords({Kind::kPieceUp, 0, {{0, 0, 900, 0}}}) == "set it down");
    CHECK(wayInWords({Kind::kPieceBack, 0, {{0, 900, 0, 0}}}) == "push it in from the back");
    CHECK(wayInWords({Kind::kPieceAlong, 0, {{-900, 0, 0, 0}}}) == "slide it in from the left");
}

TEST_CASE("where a piece is set down beside its place, and the way from there") {
    CHECK(wayInWords({Kind::kPieceAlong, 0, {{5, 0, 0, 0}, {5, 0, 900, 0}}}) ==
          "set it down 5 mm right of its place, then slide it to the left");
    CHECK(wayInWords({Kind::kPieceAlong, 0, {{0, 12, 0, 0}, {0, 12, 900, 0}}}) ==
          "set it down 12 mm behind its place, then draw it forward");
    CHECK(wayInWords({Kind::kPieceAlong, 0, {{-5, 0, 0, 0}, {-5, 12, 0, 0}, {-5, 12, 900, 0}}}) ==
          "set it down 12 mm behind and 5 mm left of its place, then draw it forward, then slide it to the right");
    CHECK(wayInWords({Kind::kPieceAlong, 0, {{0, 0, 30, 0}, {8, 0, 30, 0}, {8, -900, 30, 0}}}) ==
          "put it in from the front 8 mm right of its place, slide it to the left and fasten it");
}

TEST_CASE("a way out is told by its kind, its motion and how far a piece is drawn back") {
    CHECK(wayOutWords({Kind::kPartUp, -1, {{0, 0, 900, 0}}}) == "lift the part off");
    CHECK(wayOutWords({Kind::kPartForward, -1, {{0, -900, 0, 0}}}) == "draw the part out forward");
    CHECK(wayOutWords({Kind::kPartForward, -1, {{0, 0, 7, 0}, {0, -900, 7, 0}}, 0, 7}) ==
          "lift the part out of the V and draw it out forward");
    CHECK(wayOutWords({Kind::kPartAlong, -1, {{-900, 0, 0, 0}}}) == "slide the part off the left end");
    CHECK(wayOutWords({Kind::kPartTilted, -1, {{0, 0, 9, 0}, {0, -900, 9, 0}}}) ==
          "lift the part a little, then draw it out forward");
    CHECK(wayOutWords({Kind::kPartTilted, -1, {{0, 0, 9, 6}, {0, -900, 9, 6}}}) ==
          "lift and tilt the part to draw it out");
    CHECK(wayOutWords({Kind::kPieceUp, 0, {{0, 4, 0, 0}, {0, 4, 900, 0}}}) == "lift out");
    CHECK(wayOutWords({Kind::kPieceBack, 0, {{0, 900, 0, 0}}}) == "draw out to the back");
    CHECK(wayOutWords({Kind::kPieceBack, 0, {{0, 29, 0, 0}, {0, 29, 900, 0}}, 25}) == "draw back 25 mm, then lift out");
    CHECK(wayOutWords({Kind::kPieceAlong, 0, {{-0.4, 0, 0, 0}, {-0.4, 0, 900, 0}}}) ==
          "slide 0.4 mm to the left, then lift out");
    CHECK(wayOutWords({Kind::kPieceAlong, 0, {{12, 0, 0, 0}, {12, 25, 0, 0}, {12, 25, 900, 0}}, 25}) ==
          "slide 12 mm to the right, draw back 25 mm and lift out");
    CHECK(wayOutWords({Kind::kPieceAlong, 0, {{0, 0, 30, 0}, {0, -900, 30, 0}}}) == "loosen and take out to the front");
    CHECK(wayOutWords({Kind::kPieceAlong, 0, {{0, 0, 30, 0}, {8, 0, 30, 0}, {8, -900, 30, 0}}}) ==
          "loosen, slide along and take out to the front");
}
