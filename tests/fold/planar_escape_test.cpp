// SPDX-License-Identifier: GPL-3.0-or-later
// Ways out in the plane, with tilt and with a ram that goes up and down meanwhile. Ways that are found are looked at
// again at thousands of places by a check of our own that shares nothing with the search: corners in polygons and edges
// that cross, both written down here.
#include <cmath>
#include <numbers>
#include <random>

#include <catch2/catch.hpp>

#include "exits/planar_escape.h"

namespace tinwright::test {

namespace {

struct Piece {
    Polygon moving;
    Polygon still;
    bool rises = false;
};

Polygon box(double y0, double y1, double z0, double z1) { return {{y0, z0}, {y1, z0}, {y1, z1}, {y0, z1}}; }

double side(const Vec2& a, const Vec2& b, const Vec2& p) {
    return (b.x() - a.x()) * (p.y() - a.y()) - (b.y() - a.y()) * (p.x() - a.x());
}

bool inside(const Polygon& polygon, const Vec2& p) {
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        if (side(polygon[i], polygon[(i + 1) % polygon.size()], p) <= 0) return false;
    }
    return true;
}

bool cross(const Vec2& a, const Vec2& b, const Vec2& c, const Vec2& d) {
    return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

bool overlap(const Polygon& one, const Polygon& other) {
    for (const Vec2& p : one)
        if (inside(other, p)) return true;
    for (const Vec2& p : other)
        if (inside(one, p)) return true;
    for (std::size_t i = 0; i < one.size(); ++i)
        for (std::size_t j = 0; j < other.size(); ++j)
            if (cross(one[i], one[(i + 1) % one.size()], other[j], other[(j + 1) % other.size()])) return true;
    return false;
}

Polygon placed(const Polygon& polygon, double y, double z, double tilt_deg) {
    const double tilt = tilt_deg * std::numbers::pi / 180;
    Polygon result;
    for (const Vec2& p : polygon)
        result.emplace_back(y + p.x() * std::cos(tilt) - p.y() * std::sin(tilt),
                            z + p.x() * std::sin(tilt) + p.y() * std::cos(tilt));
    return result;
}

// The first place on the way at which something overlaps, in words; empty: none.
std::string meeting(const std::vector<Piece>& pieces, const std::vector<PlanarPose>& way) {
    PlanarPose from;
    for (const PlanarPose& to : way) {
        for (int i = 0; i <= 400; ++i) {
            const double s = i / 400.0;
            const auto at = [s](double a, double b) { return a + s * (b - a); };
            for (const Piece& piece : pieces) {
                const Polygon body = placed(piece.moving, at(from.y_mm, to.y_mm), at(from.z_mm, to.z_mm),
                                            at(from.tilt_deg, to.tilt_deg));
                const double up = piece.rises ? at(from.raised_mm, to.raised_mm) : 0;
                if (overlap(body, placed(piece.still, 0, up, 0)))
                    return "at y " + std::to_string(at(from.y_mm, to.y_mm)) + ", tilt " +
                           std::to_string(at(from.tilt_deg, to.tilt_deg));
            }
        }
        from = to;
    }
    return {};
}

PlanarEscape escapeOf(const std::vector<Piece>& pieces, const UpperTravel& travel = {}) {
    PlanarEscape escape;
    for (const Piece& piece : pieces) escape.addPair(piece.moving, Convex2(piece.still), piece.rises);
    escape.upperTravels(travel);
    return escape;
}

std::vector<Piece> allAgainst(const std::vector<Polygon>& body, const std::vector<Polygon>& still, bool rises = false) {
    std::vector<Piece> pieces;
    for (const Polygon& one : body)
        for (const Polygon& other : still) pieces.push_back({one, other, rises});
    return pieces;
}

std::vector<Piece> together(std::vector<Piece> a, const std::vector<Piece>& b) {
    a.insert(a.end(), b.begin(), b.end());
    return a;
}

}  // namespace

// Worked by hand: two legs of 420 at a right angle stand 297 high over their bend; a tool 250 high that is up by 100
// lets the rear leg out under it only when it is laid down.
TEST_CASE("An angle with long legs is tilted out from under a punch") {
    const double leg = 420 / std::numbers::sqrt2;
    const std::vector<Polygon> body{{{0, 0}, {1.5, 0}, {leg, leg - 1.5}, {leg, leg}},
                                    {{0, 0}, {-leg, leg}, {-leg, leg - 1.5}, {-1.5, 0}}};
    const auto pieces =
        together(allAgainst(body, {box(-20, 20, -60, -22)}),
                 allAgainst(body, {{{-0.5, 101}, {0.5, 101}, {10, 350}, {-10, 350}}, box(-45, 45, 350, 900)}, true));
    const auto way = escapeOf(pieces, {-100, 0}).search(false);
    REQUIRE(way);
    CHECK(meeting(pieces, *way).empty());
}

TEST_CASE("Half a millimetre on both sides is enough to come out of a slanted slot") {
    // A plate 4 thick and 24 long in a slot 5 high and 30 long that rises towards the back by 10 degrees.
    const std::vector<Polygon> body{placed(box(-12, 12, -2, 2), 0, 0, 10)};
    const std::vector<Polygon> walls{placed(box(-15, 15, 2.5, 12), 0, 0, 10),
                                     placed(box(-15, 15, -12, -2.5), 0, 0, 10)};
    const auto pieces = allAgainst(body, walls);
    const auto way = escapeOf(pieces).search(false);
    REQUIRE(way);
    CHECK(meeting(pieces, *way).empty());
    // With a wall in front of the slot and one behind it, it is shut in.
    const auto shut = allAgainst(body, {walls[0], walls[1], box(-40, -16, -40, 40), box(16, 40, -40, 40)});
    CHECK_FALSE(escapeOf(shut).search(true));
}

TEST_CASE("A ram that comes down a little lets out what hooks behind its tool") {
    // The tool has a foot to the front; the body a lip that stands up before the foot and reaches back over it.
    const std::vector<Polygon> body{box(-60, 60, 0, 2), box(-62, -60, 0, 30), box(-60, -30, 28, 30)};
    const std::vector<Polygon> tool{box(-40, -20, 31, 33), box(-22, -20, 31, 300)};
    const std::vector<Polygon> table{box(-200, 200, -50, -0.5)};
    const auto pieces = together(allAgainst(body, table), allAgainst(body, tool, true));
    const std::vector<Polygon> roof{box(-25, 70, 36, 50)};  // so that the body cannot be lifted off the foot
    const auto all = together(pieces, allAgainst(body, roof));
    const auto way = escapeOf(all, {-29, 0}).search(false);
    REQUIRE(way);
    CHECK(meeting(all, *way).empty());
}

TEST_CASE("Ways out among random shapes meet nothing on the way, and what is boxed in has none") {
    std::mt19937 random(20260);
    const auto number = [&](double lo, double hi) { return std::uniform_real_distribution<double>(lo, hi)(random); };
    int found = 0;
    for (int round = 0; round < 60; ++round) {
        const std::vector<Polygon> body{placed(box(-30, 30, 0, 1.5), 0, 0, number(-5, 5)),
                                        placed(box(0, 1.5, 0, number(10, 60)), 28, 0, number(-10, 10)),
                                        placed(box(-1.5, 0, 0, number(10, 60)), -28, 0, number(-10, 10))};
        std::vector<Polygon> lower{box(-300, 300, -60, -4)};
        std::vector<Polygon> upper{placed(box(number(-12, -4), number(4, 12), 8, 90), 0, 0, number(-8, 8)),
                                   box(-200, 200, number(70, 95), 300)};
        if (round % 2 == 0) lower.push_back(box(-80, -60, -4, number(0, 30)));
        const auto pieces = together(allAgainst(body, lower), allAgainst(body, upper, true));
        const UpperTravel travel{0, number(0, 60)};
        const auto way = escapeOf(pieces, travel).search(false);
        if (!way) continue;
        ++found;
        CAPTURE(round);
        CHECK(meeting(pieces, *way).empty());
        for (const PlanarPose& pose : *way) {
            CHECK(pose.raised_mm >= travel.down_mm - 1e-9);
            CHECK(pose.raised_mm <= travel.up_mm + 1e-9);
        }
    }
    CHECK(found > 15);
}

}  // namespace tinwright::test
