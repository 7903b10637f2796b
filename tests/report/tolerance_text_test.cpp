// SPDX-License-Identifier: GPL-3.0-or-later
// What a fold says of the tolerances: one line for the bench.
#include <catch2/catch.hpp>

#include "sample.h"
#include "sentences/tolerance_text.h"
#include "sheet_cases.h"

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

// Panels 0, 1 and 2 are base, front and back; bar 0 is B60.
std::string told(const Holding& holding) {
    return report::holdingText(sample::channel(), sample::inUse(sample::shop().brakes[0]), holding);
}
std::string open(const Holding& holding) {
    return report::openWords(sample::channel(), sample::inUse(sample::shop().brakes[0]), holding);
}

const BodyRef kBase(PanelId{0});
const BodyRef kFront(PanelId{1});
const BodyRef kBack(PanelId{2});

}  // namespace

TEST_CASE("a fold that holds says over what, and what is drawn too near for it") {
    Holding holding = over(0.1, {0.3, 0.2, 0.5}, 0.25, 1);
    holding.holds = true;
    CHECK(told(holding) == "holds over ±0.1 mm sheet, ±0.2 to 0.5 mm cutting, ±0.25 mm bend lines, ±1° bends");
    holding.may_touch = {{kFront, kBack}, {kFront, BodyRef(BendId{1})}};
    CHECK(told(holding).ends_with(
        "; drawn nearer than that, so that they may touch: front to back and front to bend back-bend"));
    holding.may_touch.resize(5, {kBase, kBack});
    CHECK(told(holding).ends_with("front to back, front to bend back-bend, base to back and 2 more pairs"));
}

TEST_CASE("a fold that is not shown to hold says by how much it fails and between what, rounded up") {
    Holding holding = over(0.107, {0.3}, 0, 0.5);
    holding.open = Holding::Open::kStroke;
    holding.lacks_mm = 0.71;
    holding.between = {kFront, BodyRef(BodyRef::Kind::kBar, ToolId{0})};
    CHECK(told(holding) ==
          "not shown to hold over ±0.11 mm sheet, ±0.3 mm cutting, ±0 mm bend lines, ±0.5° bends: lacks 0.8 mm between "
          "front and bar B60");
    holding.lacks_mm = 0;
    CHECK(open(holding) == "lacks room between front and bar B60");
    holding.open = Holding::Open::kWayOut;
    CHECK(open(holding) == "is not shown to let part and bars out as told");
}
