// SPDX-License-Identifier: GPL-3.0-or-later
// Forces on press brakes as the findings tell them, on the shipped press brake. Formula: a published air-bend chart, F
// = 1.48 Rm b t² / V (check-values B.3); factor of bottoming: common practice.
#include <catch2/catch.hpp>

#include <cmath>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/forming/metal/bending.h>

#include "press_brakes.h"
#include "sample_parts.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

const Shop kShop{};

Part angleOf(double thickness_mm, double length_mm) {
    Section section = angleSection(60, 60, length_mm);
    section.thickness_mm = thickness_mm;
    section.inside_radius_mm = 2;
    return sectionPart(section);
}

/// A metal of a tensile strength, no more and no less.
Material metalOf(double tensile_mpa) {
    Material metal = shipped("mild-steel");
    metal.tensile_mpa.least = metal.tensile_mpa.most = tensile_mpa;
    metal.yield_mpa.least = metal.yield_mpa.most = 0.6 * tensile_mpa;
    return metal;
}

double figureOf(const Finding& finding, const std::string& name) {
    for (const Figure& figure : finding.figures) {
        if (figure.name == name) return figure.value;
    }
    FAIL("no figure " << name);
    return 0;
}

/// Length of a bend of 2 mm mild steel in the V of 12 that asks this share of the press's 400 kN.
double lengthFor_mm(const Material& metal, double share) {
    return share * 400e3 / (kAirBendChartFactor * *metal.tensile_mpa.most * 4 / 12);
}

FoldStep stepOn(const BrakeInSetup& brake, const std::string& punch, const std::string& die, double covered) {
    FoldStep step;
    step.stroke.bends = bit(idAt<BendId>(0));
    step.held = {idAt<PanelId>(0)};
    step.covered_share = covered;
    for (const std::string& id : {punch, die}) {
        const ToolId tool = *brake->toolCalled(id);
        step.tools.push_back({tool, 0, brake->tool(tool).width_mm});
    }
    return step;
}

}  // namespace

TEST_CASE("a metre of mild steel asks what a published air-bend chart says (Rm 450; 6 % and 5 kN/m)") {
    struct Cell {
        double thickness_mm, opening_mm, kn_per_m;
    };
    const Cell cells[] = {{0.8, 6, 70},  {0.8, 8, 50},   {0.8, 10, 40}, {1, 6, 110},   {1, 8, 80},     {1, 10, 70},
                          {1, 12, 60},   {1.2, 10, 100}, {1.2, 12, 80}, {1.2, 16, 60}, {1.5, 10, 150}, {1.5, 12, 130},
                          {1.5, 16, 90}, {2, 12, 220},   {2, 16, 170},  {2, 20, 130},  {2, 25, 110},   {3, 20, 300}};
    const Material steel = metalOf(450);
    const Brake press = shippedPress();
    for (const Cell& cell : cells) {
        CAPTURE(cell.thickness_mm, cell.opening_mm);
        const std::vector<Finding> findings =
            brakeFindings(partOnBrake(angleOf(cell.thickness_mm, 1000), kShop, usedIn(press, cell.opening_mm)), &steel,
                          kShop, usedIn(press, cell.opening_mm));
        REQUIRE(findingOf(findings, "force.stroke"));
        const Finding& stroke = *findingOf(findings, "force.stroke");
        CHECK(std::abs(figureOf(stroke, "force_kn_per_m") - cell.kn_per_m) <=
              std::max(0.06 * cell.kn_per_m, 5.0) + 1e-9);
        CHECK(figureOf(stroke, "force_kn") == Approx(figureOf(stroke, "force_kn_per_m")));
        CHECK(stroke.brake == "press-brake");
    }
}

TEST_CASE("over the press is an overload, over 80 % of it a warning, on either side of both limits") {
    const Material steel = shipped("mild-steel");
    const BrakeInSetup press = usedIn(shippedPress(R"("length": 3000)"), 12);
    const auto found = [&](double share) {
        return brakeFindings(partOnBrake(angleOf(2, lengthFor_mm(steel, share)), kShop, press), &steel, kShop, press);
    };
    CHECK_FALSE(findingOf(found(0.799), "force.press"));
    CHECK(findingOf(found(0.799), "force.stroke"));
    const std::vector<Finding> near = found(0.801);
    REQUIRE(findingOf(near, "force.press"));
    CHECK(findingOf(near, "force.press")->severity == Severity::kWarning);
    CHECK(findingOf(found(0.999), "force.press")->severity == Severity::kWarning);
    const std::vector<Finding> over = found(1.001);
    REQUIRE(findingOf(over, "force.press"));
    CHECK(findingOf(over, "force.press")->severity == Severity::kOverload);
    CHECK(findingOf(over, "force.press")->figures[0].value == Approx(400.4));
    CHECK(*findingOf(over, "force.press")->figures[0].limit == 400);
    CHECK(hasText(findingOf(over, "force.press")->remedies, "a V of 16"));
}

// 1.48 x 410 x 4 / 12 = 202.3 N on each mm: 5146.6 mm ask 1041 kN.
TEST_CASE("1041 kN in a press of 1000 kN is an overload, told in all, on each metre and for its V") {
    const Material steel = shipped("mild-steel");
    const BrakeInSetup press = usedIn(shippedPress(R"("length": 6000, "force_kn": 1000)"), 12);
    const double n_per_mm = 1.48 * 410 * 4 / 12;
    const std::vector<Finding> findings =
        brakeFindings(partOnBrake(angleOf(2, 1041e3 / n_per_mm), kShop, press), &steel, kShop, press);
    REQUIRE_FALSE(findings.empty());
    const Finding& finding = findings.front();
    CHECK(finding.id == "force.press");
    CHECK(finding.severity == Severity::kOverload);
    CHECK(finding.words.find("1041 kN, more than the 1000 kN of the press") != std::string::npos);
    CHECK(figureOf(finding, "force_kn") == Approx(1041));
    CHECK(figureOf(finding, "force_kn_per_m") == Approx(n_per_mm));
    CHECK(figureOf(finding, "vee_mm") == 12);
}

TEST_CASE("the V that is proposed is the narrowest that will do, and none is where none does") {
    const Material steel = shipped("mild-steel");
    const BrakeInSetup press = usedIn(shippedPress(R"("length": 3000)"), 12);
    const auto remedies = [&](double share) {
        return findingOf(brakeFindings(partOnBrake(angleOf(2, lengthFor_mm(steel, share)), kShop, press), &steel, kShop,
                                       press),
                         "force.press")
            ->remedies;
    };
    CHECK(hasText(remedies(0.8 * 16 / 12 - 0.001), "a V of 16"));
    CHECK(hasText(remedies(0.8 * 16 / 12 + 0.001), "a V of 20"));
    CHECK(hasText(remedies(0.8 * 25 / 12 - 0.001), "a V of 25"));
    CHECK_FALSE(hasText(remedies(0.8 * 25 / 12 + 0.001), "a V of"));
}

TEST_CASE("punches and dies have limits of their own for each metre") {
    const Material steel = metalOf(450);
    const BrakeInSetup weak = usedIn(
        shippedPress(
            R"("dies": [{"id": "D", "width": 500, "height": 60, "opening": 12, "angle_deg": 85, "shoulder_radius": 1, "body_width": 28, "max_kn_per_m": 221}])"),
        12);
    const auto found = [&](const BrakeInSetup& brake) {
        return brakeFindings(partOnBrake(angleOf(2, 100), kShop, brake), &steel, kShop, brake);
    };
    REQUIRE(findingOf(found(weak), "force.tool"));
    CHECK(findingOf(found(weak), "force.tool")->severity == Severity::kOverload);  // 222 kN/m
    CHECK(findingOf(found(weak), "force.tool")->words.find("die") != std::string::npos);
    const auto taking = [&](double kn_per_m) {
        Brake changed = *weak;
        changed.press().dies.back().max_kn_per_m = kn_per_m;
        return weak.with(changed);
    };
    CHECK(findingOf(found(taking(223)), "force.tool")->severity == Severity::kWarning);
    CHECK_FALSE(findingOf(found(taking(222 / 0.8 + 0.1)), "force.tool"));
    CHECK_FALSE(findingOf(found(taking(0)), "force.tool"));  // not said
}

TEST_CASE("what stands is held against its own limit, over the share of the bend that it covers") {
    const Material steel = metalOf(450);  // 222 kN/m in a V of 12
    const BrakeInSetup press = usedIn(shippedPress(), 12);
    const Part part = angleOf(2, 100);
    CHECK_FALSE(findingOf(
        foldFindings(partOnBrake(part, kShop, press), &steel, kShop, press, stepOn(press, "S100L", "V12-100", 1)),
        "force.tool"));
    CHECK_FALSE(findingOf(
        foldFindings(partOnBrake(part, kShop, press), &steel, kShop, press, stepOn(press, "G100L", "V12-100", 1)),
        "force.tool"));
    const std::vector<Finding> near = foldFindings(partOnBrake(part, kShop, press), &steel, kShop, press,
                                                   stepOn(press, "G100L", "V12-100", 0.6));  // 370 of 400
    REQUIRE(findingOf(near, "force.tool"));
    CHECK(findingOf(near, "force.tool")->severity == Severity::kWarning);
    CHECK(findingOf(near, "force.tool")->words.find("punch G100L") != std::string::npos);
    CHECK(hasText(findingOf(near, "force.tool")->remedies, "a punch that may take 800 kN/m, as S"));
    const std::vector<Finding> over =
        foldFindings(partOnBrake(part, kShop, press), &steel, kShop, press, stepOn(press, "G100L", "V12-100", 0.55));
    REQUIRE(findingOf(over, "force.tool"));
    CHECK(findingOf(over, "force.tool")->severity == Severity::kOverload);
    CHECK(findingOf(over, "force.tool")->figures[0].value == Approx(1.48 * 450 * 4 / 12 / 0.55));
}

TEST_CASE("a stroke of several bends asks the sum of them") {
    // Two bends of 100 mm in one line, 222 kN/m each: 22.2 kN alone, 44.4 together.
    Section section = angleSection(60, 60, 100);
    section.thickness_mm = 2;
    Part part = sectionPart(section);
    part.panels.push_back(part.panels[1]);
    part.bends.push_back(part.bends[0]);
    part.bends[1].name = "b2";
    part.bends[1].child = idAt<PanelId>(2);
    const Material steel = metalOf(450);
    const BrakeInSetup press = usedIn(shippedPress(R"("force_kn": 44)"), 12);
    CHECK_FALSE(findingOf(brakeFindings(partOnBrake(part, kShop, press), &steel, kShop, press), "force.press"));
    FoldStep step = stepOn(press, "S100L", "V12-100", 1);
    step.stroke.bends |= bit(idAt<BendId>(1));
    const std::vector<Finding> findings = foldFindings(partOnBrake(part, kShop, press), &steel, kShop, press, step);
    REQUIRE(findingOf(findings, "force.press"));
    CHECK(findingOf(findings, "force.press")->severity == Severity::kOverload);
    CHECK(findingOf(findings, "force.press")->figures[0].value == Approx(44.4));
    CHECK(hasText(findingOf(findings, "force.press")->remedies, "a stroke for each bend"));
}

TEST_CASE("bottoming asks the press's factor times the air bend; common practice is three to five times") {
    const Material steel = metalOf(450);
    const Part part = angleOf(1, 500);
    const auto kn = [&](const std::string& fields) {
        return figureOf(*findingOf(brakeFindings(partOnBrake(part, kShop, usedIn(shippedPress(fields), 8)), &steel,
                                                 kShop, usedIn(shippedPress(fields), 8)),
                                   "force.stroke"),
                        "force_kn");
    };
    const double air = kn("");
    CHECK(air == Approx(1.48 * 450 * 500 / 8 / 1000));
    CHECK(kn(R"("bottoming_factor": 3)") == air);  // it does not bottom
    CHECK(kn(R"("bending": "bottoming")") == Approx(5 * air));
    CHECK(kn(R"("bending": "bottoming", "bottoming_factor": 3)") == Approx(3 * air));
    const BrakeInSetup weak = usedIn(shippedPress(R"("bending": "bottoming", "force_kn": 200)"), 8);
    const std::vector<Finding> over = brakeFindings(partOnBrake(part, kShop, weak), &steel, kShop, weak);
    REQUIRE(findingOf(over, "force.press"));
    CHECK(findingOf(over, "force.press")->severity == Severity::kOverload);
    CHECK(hasText(findingOf(over, "force.press")->remedies, "air bend"));
}

TEST_CASE("a bend longer than ram and bed, and a metal of which nothing is known") {
    const Material steel = shipped("mild-steel");
    const BrakeInSetup press = usedIn(shippedPress(), 12);
    CHECK_FALSE(
        findingOf(brakeFindings(partOnBrake(angleOf(1, 1500), kShop, press), &steel, kShop, press), "force.length"));
    REQUIRE(
        findingOf(brakeFindings(partOnBrake(angleOf(1, 1501), kShop, press), &steel, kShop, press), "force.length"));
    const std::vector<Finding> unknown =
        brakeFindings(partOnBrake(angleOf(1, 100), kShop, press), nullptr, kShop, press);
    REQUIRE(findingOf(unknown, "force.unknown"));
    CHECK(findingOf(unknown, "force.unknown")->severity == Severity::kNote);
    CHECK_FALSE(findingOf(unknown, "force.stroke"));
    const BrakeInSetup rated =
        usedIn(shippedPress(R"("ratings": [{"material": "mild-steel", "thickness": 0.9, "length": 1500}])"), 12);
    CHECK(findingOf(brakeFindings(partOnBrake(angleOf(1, 100), kShop, rated), nullptr, kShop, rated), "force.unknown")
              ->severity == Severity::kWarning);
}
