// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

#include <tinwright/part/flat/flat_blank.h>
#include <tinwright/part/model/round_hole.h>

using namespace tinwright;

namespace {

Polygon chords(const Vec2& centre, double radius, int n, double to_deg = 360) {
    Polygon polygon;
    for (int i = 0; i < n; ++i) {
        const double at = to_deg / 180 * std::numbers::pi * i / n;
        polygon.push_back(centre + radius * Vec2(std::cos(at), std::sin(at)));
    }
    return polygon;
}

}  // namespace

TEST_CASE("a round hole is found by its chords, anything else is not") {
    const auto hole = roundHole(chords({12, -7}, 3.25, 24));
    REQUIRE(hole);
    CHECK(hole->diameter_mm == Approx(6.5).margin(1e-9));
    CHECK((hole->centre - Vec2(12, -7)).norm() < 1e-9);
    CHECK_FALSE(roundHole(chords({0, 0}, 5, 6)));
    CHECK_FALSE(roundHole(chords({0, 0}, 5, 40, 200)));
    Polygon slot = chords({0, 0}, 5, 40);
    for (Vec2& p : slot) p.x() += p.x() > 1e-6 ? 4 : 0;
    CHECK_FALSE(roundHole(slot));
}

TEST_CASE("holes of a flat blank have names from left to right and the panel they lie on") {
    Region sheet{{{0, 0}, {100, 0}, {100, 60}, {0, 60}}, {}};
    sheet.holes.push_back({{60, 20}, {80, 20}, {80, 40}, {60, 40}});
    sheet.holes.push_back(chords({20, 30}, 4, 32));
    const auto joints = jointsOf(sheet, {{{50, 0}, {50, 60}, ""}});
    REQUIRE(joints);
    FlatBend bend;
    bend.name = "b";
    bend.angle = Angle::degrees(90);
    bend.inside_radius_mm = 1;
    bend.allowance_mm = 2;
    FlatPart whole;
    whole.name = "plate";
    whole.material = "dc01";
    whole.thickness_mm = 1;
    whole.base_at = Vec2(90, 30);
    const auto part = partFromFlat(sheet, joints.value(), {bend}, whole);
    REQUIRE(part);
    REQUIRE(part.value().cut_outs.size() == 2);
    CHECK(part.value().cut_outs[0].name == "cut-out 1");
    CHECK(part.value().panel(part.value().cut_outs[0].panel).name == "b");
    REQUIRE(part.value().cut_outs[0].round);
    CHECK(part.value().cut_outs[0].round->diameter_mm == Approx(8).margin(1e-6));
    CHECK_FALSE(part.value().cut_outs[1].round);
    CHECK(part.value().panel(part.value().cut_outs[1].panel).name == "base");
}
