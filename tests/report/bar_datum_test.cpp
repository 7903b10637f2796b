// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <tinwright/report/data/bar_datum.h>

#include "sample.h"

using namespace tinwright;

// Expected places worked out by hand from the frames of src/fold/NOTES.md.

TEST_CASE("bars are measured from the edge at the left end of the bend as the operator sees it") {
    const Part part = sample::channel();
    FoldStep step = sample::channelPlan().folds[0];
    // The front flange hangs over the leaf, the base lies back: x of the machine is x of the blank.
    const auto datum = barDatum(part, 0, 0, step);
    REQUIRE(datum);
    CHECK(datum->edge == "base.left");
    CHECK(datum->x_mm == Approx(0).margin(1e-9));
}

TEST_CASE("turned half round, the other end of the part is on the left") {
    const Part part = sample::channel();
    const auto datum = barDatum(part, bit(BendId{0}), 0, sample::channelPlan().folds[1]);
    REQUIRE(datum);
    CHECK(datum->edge == "base.right");
    CHECK(datum->x_mm == Approx(0).margin(1e-9));
}

TEST_CASE("with the other side held, left and right change places") {
    const Part part = sample::channel();
    FoldStep step = sample::channelPlan().folds[0];
    step.stroke.hold = Side::kChild;
    step.held = {PanelId{1}};
    const auto datum = barDatum(part, 0, 0, step);
    REQUIRE(datum);
    CHECK(datum->edge == "base.right");  // the base still lies flat with the flange that is held
    CHECK(datum->x_mm == Approx(0).margin(1e-9));
}

TEST_CASE("the panels that the bend joins come before panels further away") {
    Part part = sample::channel();
    part.edges = {{"back.side", PanelId{2}, Vec2(0, 40), Vec2(0, 70)}};
    const FoldStep step = sample::channelPlan().folds[0];
    REQUIRE(barDatum(part, 0, 0, step));
    CHECK(barDatum(part, 0, 0, step)->edge == "back.side");
    CHECK_FALSE(barDatum(part, bit(BendId{1}), 0, step));  // it stands up by now
    part.edges.push_back({"front.side", PanelId{1}, Vec2(98, 0), Vec2(98, -30)});
    CHECK(barDatum(part, 0, 0, step)->edge == "front.side");
    CHECK(barDatum(part, 0, 0, step)->x_mm == Approx(98));
}

TEST_CASE("a bend down is folded with the drawn face down, which swaps left and right") {
    Part part = sample::channel();
    part.bends[0].up = false;
    const auto datum = barDatum(part, 0, 0, sample::channelPlan().folds[0]);
    REQUIRE(datum);
    CHECK(datum->edge == "base.right");
}

TEST_CASE("a bend inset from the edge: the edge lies left of the bend") {
    Part part = sample::channel();
    part.bends[0].spans = {{15, 60}, {70, 90}};
    const auto datum = barDatum(part, 0, 0, sample::channelPlan().folds[0]);
    REQUIRE(datum);
    CHECK(datum->edge == "base.left");
    CHECK(datum->x_mm == Approx(-15));
}
