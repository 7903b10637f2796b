// SPDX-License-Identifier: GPL-3.0-or-later
// Paths moved by half a kerf. Rule of a plasma course (read): outwards for outlines, inwards for holes; the numbers
// follow.
#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

#include <tinwright/part/edges/kerf.h>
#include <tinwright/part/model/round_hole.h>

using namespace tinwright;

namespace {

Polygon rectangle(double x, double y, double w, double h) { return {{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}; }

Polygon circle(double x, double y, double r, int n = 72) {
    Polygon polygon;
    for (int i = 0; i < n; ++i)
        polygon.push_back(Vec2(x, y) +
                          r * Vec2(std::cos(2 * std::numbers::pi * i / n), std::sin(2 * std::numbers::pi * i / n)));
    return polygon;
}

}  // namespace

TEST_CASE("kerf 1.5: the path of a 50 mm square is 51.5 mm, of a 12 mm hole 10.5 mm") {
    const auto path = kerfPath({rectangle(0, 0, 50, 50), {circle(25, 25, 6)}}, 1.5);
    REQUIRE(path.ok());
    const Region& region = path.value().path;
    REQUIRE(region.outline.size() == 4);
    CHECK(signedArea_mm2(region.outline) == Approx(51.5 * 51.5).margin(1e-9));
    REQUIRE(region.holes.size() == 1);
    const auto hole = roundHole(region.holes[0]);
    REQUIRE(hole);
    CHECK(hole->diameter_mm == Approx(10.5).margin(1e-9));
    CHECK(path.value().notes.empty());
}

// The other way round: a torch of that width on the drawn line leaves 48.5 and 13.5; on the path it leaves what is
// drawn.
TEST_CASE("a cut of the kerf's width along the path leaves the edge that was drawn") {
    const Region blank{rectangle(0, 0, 50, 50), {rectangle(10, 10, 12, 8)}};
    CHECK(area_mm2(grown({blank.outline, {}}, -0.75).front()) == Approx(48.5 * 48.5));
    const Region path = kerfPath(blank, 1.5).value().path;
    const auto left = grown({path.outline, {}}, -0.75);
    REQUIRE(left.size() == 1);
    CHECK(area_mm2(left.front()) == Approx(2500.0).margin(1e-6));
    const auto window = grown({path.holes[0], {}}, 0.75);
    CHECK(area_mm2(window.front()) == Approx(96.0).margin(1e-6));
}

TEST_CASE("a hole that vanishes is an error that names its place") {
    const auto path = kerfPath({rectangle(0, 0, 50, 50), {circle(20, 30, 0.7), rectangle(5, 5, 10, 1.2)}}, 1.5);
    REQUIRE_FALSE(path.ok());
    REQUIRE(path.issues().size() == 2);
    CHECK(path.issues()[0].code == "kerf.hole");
    CHECK(path.issues()[0].place == "(20.0, 30.0) mm of the blank");
    CHECK(path.issues()[1].place == "(10.0, 5.6) mm of the blank");
}

TEST_CASE("a notch narrower than the kerf is told with its place, a wider one is not") {
    const auto notched = [](double width) {
        return Polygon{{0, 0}, {20, 0}, {20, 15}, {20 + width, 15}, {20 + width, 0}, {50, 0}, {50, 40}, {0, 40}};
    };
    const auto narrow = kerfPath({notched(1.2), {}}, 1.5);
    REQUIRE(narrow.ok());
    REQUIRE(narrow.value().notes.size() == 1);
    CHECK(narrow.value().notes[0].find("(20.6, 7.5)") != std::string::npos);
    CHECK(signedArea_mm2(narrow.value().path.outline) == Approx(51.5 * 41.5).margin(1e-6));
    CHECK(kerfPath({notched(1.8), {}}, 1.5).value().notes.empty());
    CHECK(gapsNarrowerThan(notched(1.2), 1.5).size() == 1);
    CHECK(gapsNarrowerThan(notched(1.2), 1.1).empty());
}

TEST_CASE("a slot that opens into a wider hole and is narrower than the kerf is told; corners and round ends are not") {
    const Polygon keyhole{{20, 10}, {31, 10}, {31, 14.5}, {48, 14.5}, {48, 15.5}, {31, 15.5}, {31, 20}, {20, 20}};
    const auto path = kerfPath({rectangle(0, 0, 60, 40), {keyhole}}, 1.5);
    REQUIRE(path.ok());
    REQUIRE(path.value().path.holes.size() == 1);
    REQUIRE(path.value().notes.size() == 1);
    CHECK(path.value().notes[0].find("(39.5, 15.0)") != std::string::npos);
    CHECK(necksNarrowerThan(keyhole, 0.9).empty());
    CHECK(necksNarrowerThan(rectangle(0, 0, 10, 5), 1.5).empty());
    CHECK(necksNarrowerThan({{0, 0}, {10, 0}, {5, 9}}, 1.5).empty());
}

TEST_CASE("a hole with a narrow neck falls into two paths, and that is told") {
    const Polygon dumbbell{{10, 10}, {20, 10}, {20, 14.5}, {30, 14.5}, {30, 10}, {40, 10},
                           {40, 20}, {30, 20}, {30, 15.5}, {20, 15.5}, {20, 20}, {10, 20}};
    const auto path = kerfPath({rectangle(0, 0, 60, 40), {dumbbell}}, 1.5);
    REQUIRE(path.ok());
    CHECK(path.value().path.holes.size() == 2);
    CHECK(path.value().notes.size() == 1);
}
