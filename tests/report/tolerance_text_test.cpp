// SPDX-License-Identifier: GPL-3.0-or-later
// What a fold says of the tolerances: one line for the bench.
#include <catch2/catch.hpp>

#include "sentences/tolerance_text.h"

using namespace tinwright;

namespace {

Holding over(double thickness_mm, std::vector<double> cutting_mm, double line_mm, double angle_deg) {
    Holding holding;
    holding.over.thickness_mm = thickness_mm;
    holding.over.cutting_mm = std::move(cutting_mm);
    holding.over.bend_line_mm = line_mm;
    holding.over.bend_angle = Angle::degrees(angle_deg);
    return holding;
}

}  // namespace

TEST_CASE("a fold that holds says over what, and what is drawn too near for it") {
    Holding holding = over(0.1, {0.3, 0.2, 0.5}, 0.25, 1);
    holding.holds = true;
    CHECK(report::holdingText(holding) ==
          "holds over ±0.1 mm sheet, ±0.2 to 0.5 mm cutting, ±0.25 mm bend lines, ±1° bends");
    holding.may_touch = {{"front", "left"}, {"front", "right"}};
    CHECK(report::holdingText(holding).ends_with(
        "; drawn nearer than that, so that they may touch: front to left and front to right"));
    holding.may_touch.resize(5, {"a", "b"});
    CHECK(report::holdingText(holding).ends_with("front to left, front to right, a to b and 2 more pairs"));
}

TEST_CASE("a fold that is not shown to hold says by how much it fails and between what, rounded up") {
    Holding holding = over(0.107, {0.3}, 0, 0.5);
    holding.open = "stroke";
    holding.lacks_mm = 0.71;
    holding.between[0] = "lip_front";
    holding.between[1] = "bar B60";
    CHECK(report::holdingText(holding) ==
          "not shown to hold over ±0.11 mm sheet, ±0.3 mm cutting, ±0 mm bend lines, ±0.5° bends: lacks 0.8 mm between "
          "lip_front and bar B60");
    holding.lacks_mm = 0;
    CHECK(toText(holding) == "lacks room between lip_front and bar B60");
    holding.open = "way-out";
    CHECK(toText(holding) == "is not shown to let part and bars out as told");
}
