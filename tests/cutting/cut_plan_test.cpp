// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include <algorithm>

#include <tinwright/forming/cutting/cut_plan.h>

#include "plates.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

std::vector<std::string> idsOf(const CutPlan& plan) {
    std::vector<std::string> ids;
    for (const Finding& finding : plan.findings) ids.push_back(finding.id);
    return ids;
}

const Finding& findingOf(const CutPlan& plan, const std::string& id) {
    const auto found = std::find_if(plan.findings.begin(), plan.findings.end(),
                                    [&](const Finding& finding) { return finding.id == id; });
    REQUIRE(found != plan.findings.end());
    return *found;
}

Cutting plasma() {
    Cutting cutting = cuttingOf(CutProcess::kPlasma);
    cutting.kerfs = {{1.5, 1.5, 30.0}};
    return cutting;
}

}  // namespace

TEST_CASE("a hole under the smallest goes on the drill list, from two edges; one of that size is cut") {
    Part part = plate();
    addHole(part, "small", 20, 30, 2.9);
    addHole(part, "just", 60, 40, 3.0);
    addHole(part, "large", 100, 60, 20);
    const CutPlan plan = cutPlan(part, plasma());
    REQUIRE(plan.drilled.size() == 1);
    const DrilledHole& hole = plan.drilled[0];
    CHECK(hole.name == "small");
    CHECK(hole.diameter_mm == Approx(2.9));
    CHECK((hole.centre - Vec2(20, 30)).norm() < 1e-9);
    REQUIRE(hole.from.size() == 2);
    CHECK(hole.from[0].edge == "base.left");
    CHECK(hole.from[0].distance_mm == Approx(20));
    CHECK(hole.from[1].edge == "base.front");
    CHECK(hole.from[1].distance_mm == Approx(30));
    CHECK(hole.pilot_mm == Approx(2.9));  // never over the hole
    CHECK_FALSE(hole.cut_pilot_mm);
    CHECK(plan.cut == std::vector<std::size_t>{1, 2});
    CHECK(idsOf(plan) == std::vector<std::string>{"cut.hole"});
    const Region path = cutRegion(part, plan);
    CHECK(path.holes.size() == 2);
    CHECK(*plan.kerf_mm == 1.5);
}

// Common practice: cut 1 to 2 mm under, or only mark, and drill after folding.
TEST_CASE("pilots are cut under size when the shop says so, unless the cut itself is as wide") {
    Part part = plate();
    part.thickness_mm = 6;
    addHole(part, "a", 30, 30, 8);
    addHole(part, "b", 60, 30, 4);
    Cutting cutting = plasma();
    cutting.kerfs = {{6, 1.8, 45.0}};
    cutting.cut_under_mm = 1.5;
    const CutPlan plan = cutPlan(part, cutting);
    REQUIRE(plan.drilled.size() == 2);
    CHECK(*plan.drilled[0].cut_pilot_mm == Approx(6.5));
    CHECK_FALSE(plan.drilled[1].cut_pilot_mm);  // 2.5 mm is no wider than the kerf on both sides
    const Region path = cutRegion(part, plan);
    REQUIRE(path.holes.size() == 1);
    CHECK(signedArea_mm2(path.holes[0]) == Approx(3.14159 * 3.25 * 3.25).epsilon(0.01));
}

TEST_CASE("a slot that is too narrow is drilled at both ends; a wide one is cut") {
    Part part = plate();
    addCutOut(part, "slit", slot(60, 20, 30, 2));
    addCutOut(part, "slot", slot(60, 60, 30, 6));
    const CutPlan plan = cutPlan(part, plasma());
    REQUIRE(plan.drilled.size() == 2);
    CHECK(plan.drilled[0].name == "slit end 1");
    CHECK(plan.drilled[0].diameter_mm == Approx(2).margin(0.01));
    CHECK((plan.drilled[0].centre - Vec2(46, 20)).norm() < 0.01);
    CHECK((plan.drilled[1].centre - Vec2(74, 20)).norm() < 0.01);
    CHECK(plan.cut == std::vector<std::size_t>{1});
    CHECK(findingOf(plan, "cut.narrow").feature == "slit");
    CHECK(cutRegion(part, plan).holes.size() == 1);
}

TEST_CASE("a narrow shape that is no slot stays and is warned of; a small square is one drilled hole") {
    Part part = plate();
    addCutOut(part, "corner", {{20, 20}, {50, 20}, {50, 22}, {22, 22}, {22, 50}, {20, 50}});
    addCutOut(part, "square", rectangle(80, 40, 2, 2));
    const CutPlan plan = cutPlan(part, plasma());
    REQUIRE(plan.drilled.size() == 1);
    CHECK(plan.drilled[0].name == "square");
    CHECK((plan.drilled[0].centre - Vec2(81, 41)).norm() < 1e-9);
    CHECK(plan.cut == std::vector<std::size_t>{0});
}

TEST_CASE("a tapered slit is not drilled at its widest, where it is thin") {
    Part part = plate();
    addCutOut(part, "wedge", {{20, 20}, {50, 20}, {43, 22}, {27, 22}});
    const CutPlan plan = cutPlan(part, plasma());
    CHECK(plan.drilled.empty());
    CHECK(plan.cut == std::vector<std::size_t>{0});
    CHECK(findingOf(plan, "cut.narrow").feature == "wedge");
}

TEST_CASE("a slot that the cut does not fit into is told though it opens into a wide hole") {
    Part part = plate();
    addCutOut(part, "keyhole",
              {{20, 20}, {31, 20}, {31, 24.5}, {48, 24.5}, {48, 25.5}, {31, 25.5}, {31, 30}, {20, 30}});
    CHECK(findingOf(cutPlan(part, plasma()), "cut.narrow").feature == "keyhole");
    Cutting fine = plasma();
    fine.kerfs = {{1.5, 0.8, {}}};
    const CutPlan plan = cutPlan(part, fine);
    const std::vector<std::string> ids = idsOf(plan);
    CHECK(std::find(ids.begin(), ids.end(), "cut.narrow") == ids.end());
}

TEST_CASE("with shears every hole is drilled, and windows are cut by hand") {
    Part part = plate();
    addHole(part, "hole", 30, 30, 20);
    addCutOut(part, "window", rectangle(60, 20, 40, 30));
    const CutPlan plan = cutPlan(part, cuttingOf(CutProcess::kShearAndDrill));
    REQUIRE(plan.drilled.size() == 1);
    CHECK(plan.drilled[0].pilot_mm == Approx(3));
    CHECK(findingOf(plan, "cut.by-hand").feature == "window");
    CHECK_FALSE(plan.kerf_mm);
    CHECK(plan.dross_words.empty());
}

TEST_CASE("sharp inside corners come out round, round ones are nothing to say") {
    Part part = plate();
    addCutOut(part, "window", rectangle(20, 20, 40, 30));
    addHole(part, "hole", 90, 40, 20);
    const CutPlan plan = cutPlan(part, plasma());
    REQUIRE(idsOf(plan) == std::vector<std::string>{"cut.corner"});
    CHECK(findingOf(plan, "cut.corner").feature == "window");
    CHECK(findingOf(plan, "cut.corner").figures.at(0).value == 4);
    Part notched = plate();
    notched.blank.outline = {{0, 0}, {120, 0}, {120, 80}, {70, 80}, {70, 50}, {40, 50}, {40, 80}, {0, 80}};
    const CutPlan outline = cutPlan(notched, plasma());
    REQUIRE(idsOf(outline) == std::vector<std::string>{"cut.corner"});
    CHECK(findingOf(outline, "cut.corner").figures.at(0).value == 2);
}

TEST_CASE("webs between cuts: as thin as the least passes, thinner is said with the distance") {
    for (const auto& [gap, thin] : {std::pair(3.0, false), std::pair(2.9, true)}) {
        Part part = plate();
        addHole(part, "a", 30, 40, 10);
        addHole(part, "b", 40 + gap, 40, 10);
        const CutPlan plan = cutPlan(part, plasma());
        CHECK(plan.findings.empty() == !thin);
        if (thin) CHECK(findingOf(plan, "cut.web").figures.at(0).value == Approx(2.9).margin(1e-6));
    }
    Part part = plate();
    addHole(part, "edge", 120 - 5 - 2, 40, 10);
    CHECK(findingOf(cutPlan(part, plasma()), "cut.web").words.find("the outline") != std::string::npos);
}

TEST_CASE("a gap of the outline that the kerf closes") {
    Part part = plate();
    part.blank.outline = {{0, 0}, {120, 0}, {120, 80}, {61, 80}, {61, 40}, {60, 40}, {60, 80}, {0, 80}};
    const CutPlan plan = cutPlan(part, plasma());
    CHECK(findingOf(plan, "cut.narrow").feature == "the outline");
    Cutting fine = cuttingOf(CutProcess::kLaser);
    fine.kerfs = {{1.5, 0.2, {}}};
    const CutPlan laser = cutPlan(part, fine);
    CHECK(std::none_of(laser.findings.begin(), laser.findings.end(),
                       [](const Finding& finding) { return finding.id == "cut.narrow"; }));
}

TEST_CASE("a hole that another cut runs into stays in the cut") {
    Part part = plate();
    part.cut_outs.push_back({"cut into", PanelId{0}, circle(40, 40, 2), RoundHole{{40, 40}, 2}, false});
    part.blank.holes.push_back(rectangle(40, 30, 20, 20));
    CHECK(cutPlan(part, plasma()).drilled.empty());
}

TEST_CASE("film and dross are told") {
    Part part = plate();
    part.film = Film::kBothFaces;
    const CutPlan plan = cutPlan(part, plasma());
    CHECK(plan.film_words.find("burns") != std::string::npos);
    CHECK(plan.dross_words.find("other face") != std::string::npos);
    CHECK(cutPlan(part, cuttingOf(CutProcess::kLaser)).dross_words.empty());
}

TEST_CASE("distances from edges that are not square to one another, and from another panel's when its own lack") {
    Part part = plate();
    part.edges = {{"base.front", PanelId{0}, {0, 0}, {120, 0}}, {"lid.far", PanelId{1}, {0, -40}, {0, 120}}};
    part.panels.push_back({"lid", part.blank});
    addHole(part, "small", 20, 30, 2);
    const CutPlan plan = cutPlan(part, plasma());
    REQUIRE(plan.drilled.size() == 1);
    REQUIRE(plan.drilled[0].from.size() == 2);
    CHECK(plan.drilled[0].from[0].edge == "base.front");
    CHECK(plan.drilled[0].from[1].edge == "lid.far");
    CHECK(plan.drilled[0].from[1].distance_mm == Approx(20));
}
