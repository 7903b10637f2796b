// SPDX-License-Identifier: GPL-3.0-or-later
// What is said of a part on the shipped press brake, besides forces: radius, flange, angle, opening, tip, cut-outs,
// hands. Radii and flanges: rows b and ir of a published air-bend chart (check-values B.3, E1, E2).
#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/forming/rules/rules.h>

#include "press_brakes.h"
#include "sample_parts.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

const Shop kShop{};

struct ChartColumn {
    double opening_mm, flange_mm, radius_mm;
};
constexpr ChartColumn kChart[] = {{6, 4, 1.0},   {8, 5.5, 1.3}, {10, 7, 1.6},   {12, 8.5, 2.0},
                                  {16, 11, 2.6}, {20, 14, 3.3}, {25, 17.5, 4.0}};

/// An angle with a flange of that length outside.
Part flangeOf(double outside_mm, double thickness_mm, double radius_mm, double angle_deg = 90) {
    const Angle angle = Angle::degrees(angle_deg);
    const double setback =
        angle_deg <= 90 ? (radius_mm + thickness_mm) * std::tan(angle.rad() / 2) : radius_mm + thickness_mm;
    Section section = angleSection(80, outside_mm - setback, 200);
    section.thickness_mm = thickness_mm;
    section.inside_radius_mm = radius_mm;
    section.angles_deg = {angle_deg};
    return sectionPart(section);
}

Part plain() { return flangeOf(60, 1.5, 1.6); }

NamedCutOut holeAt(double x, double y, double diameter_mm) {
    NamedCutOut cut_out{.name = "hole",
                        .panel = idAt<PanelId>(1),
                        .outline = {},
                        .round = RoundHole{{x, y}, diameter_mm},
                        .is_notch = false};
    for (int i = 0; i < 48; ++i)
        cut_out.outline.emplace_back(x + diameter_mm / 2 * std::cos(i * std::numbers::pi / 24),
                                     y + diameter_mm / 2 * std::sin(i * std::numbers::pi / 24));
    return cut_out;
}

std::vector<Finding> on(const BrakeInSetup& brake, const Part& part, const char* material = "mild-steel") {
    const Material metal = shipped(material);
    std::vector<Finding> findings = brakeFindings(partOnBrake(part, kShop, brake), &metal, kShop, brake);
    for (const Finding& finding : findings) {
        INFO(finding.id << " " << finding.words);
        CHECK(findRule(finding.id));
        CHECK_FALSE(finding.feature.empty());
        CHECK((finding.severity == Severity::kNote || !finding.remedies.empty()));
    }
    return findings;
}

const Figure& figureOf(const Finding& finding, std::string_view name) {
    for (const Figure& figure : finding.figures) {
        if (figure.name == name) return figure;
    }
    FAIL("no figure " << std::string(name));
    return finding.figures.front();
}

}  // namespace

TEST_CASE("a plain angle of mild steel in the usual V has nothing but notes on a press brake") {
    for (const Finding& finding : on(usedIn(shippedPress(), 10), plain())) {
        INFO(finding.id << " " << finding.words);
        CHECK(finding.severity == Severity::kNote);
        CHECK(findRule(finding.id));
        CHECK(finding.brake == "press-brake");
    }
}

TEST_CASE("every V of the shipped press brake: inside radius and shortest flange of a published chart (10 % and 8 %)") {
    const Brake press = shippedPress();
    for (const ChartColumn& column : kChart) {
        CAPTURE(column.opening_mm);
        const double thickness_mm = column.opening_mm / 8;
        const BrakeInSetup used = usedIn(press, column.opening_mm);
        CHECK(used.inside_radius_mm() == Approx(column.radius_mm).epsilon(0.10));
        // Where the geometry of the bearing asks more than the chart, that is told beside it.
        const std::vector<Finding> longer = on(used, flangeOf(1.08 * column.flange_mm, thickness_mm, column.radius_mm));
        if (const Finding* finding = findingOf(longer, "flange.vee")) {
            CHECK(*figureOf(*finding, "chart_flange_mm").limit <= 1.08 * column.flange_mm);
            CHECK(*figureOf(*finding, "planned_flange_mm").limit > 1.08 * column.flange_mm);
        }
        CHECK_FALSE(findingOf(on(used, flangeOf(60, thickness_mm, column.radius_mm)), "radius.drawn"));
        const std::vector<Finding> found = on(used, flangeOf(0.92 * column.flange_mm, thickness_mm, column.radius_mm));
        REQUIRE(findingOf(found, "flange.vee"));
        CHECK(*figureOf(*findingOf(found, "flange.vee"), "chart_flange_mm").limit ==
              Approx(column.flange_mm).epsilon(0.08));
        CHECK(findingOf(found, "flange.vee")->figures[0].value == Approx(0.92 * column.flange_mm));
        CHECK(findingOf(found, "flange.vee")->feature == "p1");
    }
}

TEST_CASE("past a right angle the sheet must reach as far as its foot on the shoulder (geometry of sharp shoulders)") {
    // At the stroke's end the sheet's outside runs at half the angle h through the shoulder, V/2 from the middle, and
    // leaves the outer arc (r + t) tan h from where both outsides would meet. The chart's 0.7 V stands for (V/2) / cos
    // 45°.
    const Vee vee{20, Angle::degrees(30), 0};
    for (const double angle_deg : {90.0, 100.0, 120.0, 140.0}) {
        const double h = angle_deg / 2 * std::numbers::pi / 180;
        const double foot = 10 / std::cos(h) - (3.2 + 2) * std::tan(h);
        CAPTURE(angle_deg);
        CHECK(pressLeastFlat_mm(vee, Angle::degrees(angle_deg), 3.2, 2) == Approx(foot).margin(0.3));
    }
}

TEST_CASE("a narrower V is offered where a flange does for it, down to 5 thicknesses") {
    const BrakeInSetup used = usedIn(shippedPress(), 16);
    const std::vector<Finding> found = on(used, flangeOf(8.5, 1.5, 1.92));  // 0.7 x 12 = 8.4
    REQUIRE(findingOf(found, "flange.vee"));
    CHECK(hasText(findingOf(found, "flange.vee")->remedies, "a V of 12"));
    const std::vector<Finding> shorter = on(used, flangeOf(5.5, 1.5, 1.5));  // 0.7 x 6 = 4.2, but 6 is 4 thicknesses
    CHECK_FALSE(hasText(findingOf(shorter, "flange.vee")->remedies, "a V of"));
}

TEST_CASE("a radius drawn otherwise than the V makes it: a note, and a warning over half a thickness") {
    const BrakeInSetup used = usedIn(shippedPress(), 12);  // 1.92
    const std::vector<Finding> note = on(used, flangeOf(60, 1.5, 1.5));
    REQUIRE(findingOf(note, "radius.drawn"));
    CHECK(findingOf(note, "radius.drawn")->severity == Severity::kNote);
    CHECK(findingOf(note, "radius.drawn")->words.find("a V of 12 bends get an inside radius of 1.9 mm by the chart") !=
          std::string::npos);
    CHECK(findingOf(note, "radius.drawn")->words.find("drawn with 1.5 mm") != std::string::npos);
    CHECK(hasText(findingOf(note, "radius.drawn")->remedies, "a V of 10"));
    CHECK_FALSE(hasText(findingOf(on(used, flangeOf(60, 1.5, 0.96)), "radius.drawn")->remedies,
                        "a V of"));  // 6 is 4 thicknesses
    CHECK(findingOf(on(used, flangeOf(60, 1.5, 1.16)), "radius.drawn")->severity == Severity::kWarning);
    CHECK(findingOf(on(used, flangeOf(60, 1.5, 1.18)), "radius.drawn")->severity == Severity::kNote);
}

TEST_CASE("a V whose radius the table does not let the metal have, whatever is drawn (Aluminum Design Manual)") {
    Part part = flangeOf(80, 1.5, 8);
    part.material = "2024-t3";
    const std::vector<Finding> found = on(usedIn(shippedPress(), 12), part, "2024-t3");
    REQUIRE(findingOf(found, "radius.vee"));
    CHECK(*findingOf(found, "radius.vee")->figures[0].limit == 6);
    CHECK_FALSE(findingOf(found, "radius.nose"));
    CHECK_FALSE(findingOf(on(usedIn(shippedPress(), 12), flangeOf(80, 1.5, 8), "dc01"), "radius.vee"));
}

TEST_CASE("bottoming: the tip makes the radius, and the V's angle must suit the bend") {
    const Brake press = shippedPress(R"("bending": "bottoming")");
    const BrakeInSetup used = usedIn(press, 12);
    CHECK(used.inside_radius_mm() == Approx(0.8));
    CHECK(findingOf(on(used, flangeOf(60, 1.5, 1.5)), "radius.drawn")->words.find("from the punch's tip") !=
          std::string::npos);
    CHECK_FALSE(findingOf(on(used, flangeOf(60, 1.5, 0.8)), "radius.drawn"));
    // The shipped V of 85 degrees: with the default overbend of 3 degrees a bend of 90 wants 87.
    CHECK_FALSE(findingOf(on(used, flangeOf(60, 1.5, 0.8)), "angle.vee"));
    const std::vector<Finding> blunt = on(used, flangeOf(60, 1.5, 0.8, 60));
    REQUIRE(findingOf(blunt, "angle.vee"));
    CHECK(findingOf(blunt, "angle.vee")->severity == Severity::kWarning);
    CHECK(findingOf(blunt, "angle.vee")
              ->words.find("comes out at about 88° included (92° turned), not 120° included (60° turned)") !=
          std::string::npos);
    CHECK(findingOf(on(used, flangeOf(60, 1.5, 0.8, 100)), "angle.vee")->severity == Severity::kFault);
}

TEST_CASE("an air bend goes as far as the flanks of the V let it") {
    const BrakeInSetup used = usedIn(shippedPress(), 12);  // 85 degrees: up to 95
    CHECK_FALSE(findingOf(on(used, flangeOf(60, 1.5, 1.9, 92)), "angle.vee"));
    CHECK(findingOf(on(used, flangeOf(60, 1.5, 1.9, 92.1)), "angle.vee")->severity == Severity::kWarning);
    CHECK(findingOf(on(used, flangeOf(60, 1.5, 1.9, 95.1)), "angle.vee")->severity == Severity::kFault);
    CHECK_FALSE(findingOf(on(used, flangeOf(60, 1.5, 1.9, 45)), "angle.vee"));
    CHECK_FALSE(findingOf(on(used, flangeOf(60, 1.5, 1.9, 95.1)), "angle.leaf"));
}

TEST_CASE("an opening out of Oehler's 5 to 20 thicknesses is a warning; one far from the usual a note") {
    const Brake press = shippedPress();
    const auto severity = [&](double opening_mm, double thickness_mm) -> std::optional<Severity> {
        const std::vector<Finding> found = on(usedIn(press, opening_mm), flangeOf(60, thickness_mm, 1.6));
        const Finding* opening = findingOf(found, "vee.opening");
        return opening ? std::optional(opening->severity) : std::nullopt;
    };
    CHECK_FALSE(severity(10, 1.5));
    CHECK_FALSE(severity(25, 2.5));
    CHECK(severity(16, 3) == Severity::kNote);       // 5.3 t, 24 is usual
    CHECK(severity(12, 2.5) == Severity::kWarning);  // 4.8 t
    CHECK(severity(16, 1) == Severity::kNote);       // 16 t, 6 is usual
    CHECK(severity(25, 1.2) == Severity::kWarning);  // 20.8 t
}

TEST_CASE("a tip under 0.63 t is told (common practice)") {
    const BrakeInSetup used = usedIn(shippedPress(), 12);  // all tips 0.8
    CHECK_FALSE(findingOf(on(used, flangeOf(60, 1.26, 1.9)), "punch.sharp"));
    CHECK(findingOf(on(used, flangeOf(60, 1.28, 1.9)), "punch.sharp"));
}

TEST_CASE("a hole V/2 - 1 from the bend line, a slot V/2 + 1 (trade guidance), on either side of both limits") {
    const BrakeInSetup used = usedIn(shippedPress(), 16);
    Part part = flangeOf(60, 1.5, 1.6);
    const double line = 80 + part.bends[0].allowance_mm / 2;
    const auto found = [&](const NamedCutOut& cut_out) {
        part.cut_outs = {cut_out};
        return on(used, part);
    };
    const auto slot = [&](double from_line_mm) {
        return NamedCutOut{.name = "slot",
                           .panel = idAt<PanelId>(1),
                           .outline = rectangle(90, line + from_line_mm, 110, line + from_line_mm + 4),
                           .round = {},
                           .is_notch = false};
    };
    CHECK_FALSE(findingOf(found(holeAt(100, line + 7.01 + 2.5, 5)), "hole.vee"));
    const std::vector<Finding> hole = found(holeAt(100, line + 6.9 + 2.5, 5));
    REQUIRE(findingOf(hole, "hole.vee"));
    CHECK(findingOf(hole, "hole.vee")->figures[0].value == Approx(6.9));
    CHECK(*findingOf(hole, "hole.vee")->figures[0].limit == Approx(7));
    CHECK(hasText(findingOf(hole, "hole.vee")->remedies, "move it 0.1 mm away"));
    CHECK(hasText(findingOf(hole, "hole.vee")->remedies, "a V of 12"));
    CHECK_FALSE(findingOf(found(slot(9.01)), "hole.vee"));
    REQUIRE(findingOf(found(slot(8.9)), "hole.vee"));
    CHECK(*findingOf(found(slot(8.9)), "hole.vee")->figures[0].limit == Approx(9));
    CHECK(findingOf(found(slot(6)), "hole.vee")->words.find("does not bear on the shoulder") != std::string::npos);
    CHECK(findingOf(found(slot(3.5)), "hole.vee")->words.find("hangs in the V") != std::string::npos);
    CHECK_FALSE(findingOf(found(slot(-2)), "hole.vee"));  // in the bend: said for the part
}

TEST_CASE("a window inside the shoulder weakens the leg, past it not at all: the moment ends at the shoulder") {
    const BrakeInSetup used = usedIn(shippedPress(), 25);
    Part part = flangeOf(80, 1.5, 4);
    const double start = 80 + part.bends[0].allowance_mm;
    Part inside = part;
    cut(inside, 1, "window", rectangle(5, start + 1.5, 195, start + 6));
    const std::vector<Finding> weak = on(used, inside);
    REQUIRE(findingOf(weak, "web.folds"));
    CHECK(findingOf(weak, "web.folds")->severity == Severity::kFault);
    CHECK(findingOf(weak, "web.folds")->section);
    CHECK(hasText(findingOf(weak, "web.folds")->remedies, "after folding"));
    CHECK_FALSE(findingOf(weak, "web.hold"));
    Part outside = part;
    cut(outside, 1, "window", rectangle(5, start + 15, 195, start + 30));
    CHECK_FALSE(findingOf(on(used, outside), "web.folds"));
    CHECK_FALSE(findingOf(on(used, outside), "web.bows"));
    CHECK(findingOf(brakeFindings(partOnBrake(outside, kShop, brakeOf(ClampKind::kOnBeam)), nullptr, kShop,
                                  brakeOf(ClampKind::kOnBeam)),
                    "web.hold"));  // a leaf reaches further
}

TEST_CASE(
    "bends near one another: a U by the flat between them, a Z by the die beside it; one slips, the other collides") {
    const BrakeInSetup used = usedIn(shippedPress(), 10);  // least flat 7 - (r + t); die 28 wide
    Section section = angleSection(40, 3.0, 200);
    section.flats_mm = {40, 3.8, 40};
    section.thickness_mm = 1.5;
    section.inside_radius_mm = 1.6;
    section.angles_deg = {90, 90};
    REQUIRE(findingOf(on(used, sectionPart(section)), "bend.vee"));
    CHECK(*figureOf(*findingOf(on(used, sectionPart(section)), "bend.vee"), "chart_flat_mm").limit == Approx(7 - 3.1));
    CHECK_FALSE(findingOf(on(used, sectionPart(section)), "flange.vee"));  // it is not a free flange
    section.flats_mm[1] = 4.4;
    CHECK_FALSE(findingOf(on(used, sectionPart(section)), "bend.vee"));
    section.flats_mm[1] = 3.95;
    section.angles_deg = {90, -90};
    const std::vector<Finding> step = on(used, sectionPart(section));
    REQUIRE(findingOf(step, "bend.vee"));
    const double strip = sectionPart(section).bends[0].allowance_mm;
    CHECK(findingOf(step, "bend.vee")->figures[0].value == Approx(strip / 2 + 3.95 + 1.6));
    CHECK(*findingOf(step, "bend.vee")->figures[0].limit == Approx(14 + kShop.limits.clearance_mm));
    // The arc at the flange begins where the flat ends, and may be in the die's top edge by 0.05: 14 - sqrt(1.65^2
    // - 1.6^2).
    const double flat_end = 14 - std::sqrt(1.65 * 1.65 - 1.6 * 1.6);
    CHECK(*figureOf(*findingOf(step, "bend.vee"), "planned_room_mm").limit == Approx(flat_end + 1.6).margin(0.01));
    section.flats_mm[1] = flat_end - strip / 2 + 0.01;
    CHECK_FALSE(findingOf(on(used, sectionPart(section)), "bend.vee"));
    section.flats_mm[1] = flat_end - strip / 2 - 0.01;
    CHECK(findingOf(on(used, sectionPart(section)), "bend.vee"));
    CHECK(
        std::none_of(step.begin(), step.end(), [](const Finding& finding) { return finding.id == "bend.near-bend"; }));
}

TEST_CASE("hands near the tools, and an edge that whips up, by what stands out in front") {
    const BrakeInSetup used = usedIn(shippedPress(), 10);
    Section section = angleSection(95, 300, 200);
    section.thickness_mm = 1.5;
    section.inside_radius_mm = 1.6;
    const Part part = sectionPart(section);
    FoldStep step;
    step.stroke.bends = bit(idAt<BendId>(0));
    step.angle = Angle::degrees(90);
    step.set_angle = Angle::degrees(93);
    step.covered_share = 1;
    step.held = {idAt<PanelId>(1)};  // 300 at the back, 95 in front
    const std::vector<Finding> small = foldFindings(partOnBrake(part, kShop, used), nullptr, kShop, used, step);
    REQUIRE(findingOf(small, "hold.hands"));
    CHECK(findingOf(small, "hold.hands")->figures[0].value == Approx(95 + part.bends[0].allowance_mm / 2));
    CHECK(hasText(findingOf(small, "hold.hands")->remedies, "the other side in front"));
    CHECK_FALSE(findingOf(small, "hold.rise"));
    step.held = {idAt<PanelId>(0)};
    const std::vector<Finding> large = foldFindings(partOnBrake(part, kShop, used), nullptr, kShop, used, step);
    CHECK_FALSE(findingOf(large, "hold.hands"));
    REQUIRE(findingOf(large, "hold.rise"));
    CHECK(findingOf(large, "hold.rise")->figures[0].value ==
          Approx((300 + part.bends[0].allowance_mm / 2) * std::sin(46.5 * std::numbers::pi / 180)));
    for (const Finding& finding : large)
        CHECK((finding.id != "hold.lifts" && finding.id != "hold.pack" && finding.id != "hold.gap"));
}

TEST_CASE("a press brake without bends is no trouble") {
    Part flat = plain();
    flat.bends.clear();
    const Material steel = shipped("mild-steel");
    CHECK(brakeFindings(partOnBrake(flat, kShop, usedIn(shippedPress(), 10)), &steel, kShop, usedIn(shippedPress(), 10))
              .empty());
}
