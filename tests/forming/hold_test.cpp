// SPDX-License-Identifier: GPL-3.0-or-later
// Holding on a magnetic folder: relative to the brake's own rating, by the stated model (src/forming/NOTES.md).
#include <catch2/catch.hpp>

#include "sample_parts.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

const Shop kShop{};

FoldStep stepWith(double bar_mm, std::size_t held) {
    FoldStep step;
    step.stroke.bends = bit(idAt<BendId>(0));
    step.held = {idAt<PanelId>(held)};
    step.leaf_face = "full";
    step.tools = {{idAt<ToolId>(0), 0, bar_mm}};
    return step;
}

Brake folder(double depth_mm, double deepest_mm) {
    Brake brake = brakeOf(ClampKind::kLooseBars, depth_mm);
    std::vector<Bar>& bars = brake.leaf().bars;
    bars.push_back(bars.front());
    bars.back().clamp_depth_mm = deepest_mm;
    return brake;
}

}  // namespace

TEST_CASE("full bars on sheet within the rating hold") {
    const Part part = sectionPart(angleSection(60, 40, 100));
    const Material steel = shipped("mild-steel");
    CHECK(foldFindings(partOnBrake(part, kShop, folder(50, 50)), &steel, kShop, folder(50, 50), stepWith(100, 0))
              .empty());
}

TEST_CASE("a narrow bar holds by the square of its depth: it lifts, and deeper bars cure it") {
    const Part part = sectionPart(angleSection(60, 40, 100));
    const Material steel = shipped("mild-steel");
    const std::vector<Finding> findings =
        foldFindings(partOnBrake(part, kShop, folder(50, 60)), &steel, kShop, folder(50, 60), stepWith(100, 0));
    REQUIRE(findingOf(findings, "hold.lifts"));
    CHECK(findingOf(findings, "hold.lifts")->figures[0].value == Approx(2.25 / 2.56 * 36 / 25));
    CHECK(hasText(findingOf(findings, "hold.lifts")->remedies, "60 mm deep"));
    CHECK(findingOf(findings, "hold.lifts")->brake == "brake");
}

TEST_CASE("short bars hold less; longer ones cure it, or a clamp, or two passes") {
    const Part part = sectionPart(angleSection(60, 40, 100));
    const Material steel = shipped("mild-steel");
    const std::vector<Finding> findings =
        foldFindings(partOnBrake(part, kShop, folder(50, 50)), &steel, kShop, folder(50, 50), stepWith(70, 0));
    REQUIRE(findingOf(findings, "hold.lifts"));
    const Finding& lifts = *findingOf(findings, "hold.lifts");
    CHECK(lifts.figures[0].value == Approx(2.25 / 2.56 / 0.7));
    CHECK(hasText(lifts.remedies, "longer bars"));
    CHECK(hasText(lifts.remedies, "clamp"));
    CHECK(hasText(lifts.remedies, "two passes"));
}

TEST_CASE("a part shallower than the bar wants packing of the same sheet under its back (common practice)") {
    const Part part = sectionPart(angleSection(60, 40, 100));
    const Material steel = shipped("mild-steel");
    CHECK_FALSE(findingOf(
        foldFindings(partOnBrake(part, kShop, folder(50, 50)), &steel, kShop, folder(50, 50), stepWith(100, 0)),
        "hold.pack"));
    const std::vector<Finding> findings =
        foldFindings(partOnBrake(part, kShop, folder(50, 50)), &steel, kShop, folder(50, 50), stepWith(100, 1));
    REQUIRE(findingOf(findings, "hold.pack"));
    CHECK(findingOf(findings, "hold.pack")->figures[0].value == Approx(40));
    CHECK(hasText(findingOf(findings, "hold.pack")->remedies, "1.5 mm sheet"));
}

TEST_CASE("a panel that is still flat lies under the bar with its neighbour") {
    Section section = angleSection(60, 40, 100);
    section.flats_mm = {60, 40, 30};
    section.angles_deg = {90, 90};
    const Part part = sectionPart(section);
    const Material steel = shipped("mild-steel");
    CHECK(findingOf(
        foldFindings(partOnBrake(part, kShop, folder(50, 50)), &steel, kShop, folder(50, 50), stepWith(100, 1)),
        "hold.pack"));
    CHECK_FALSE(findingOf(
        foldFindings(partOnBrake(part, kShop, folder(50, 50)), &steel, kShop, folder(50, 50), stepWith(100, 1), 0),
        "hold.pack"));
}

TEST_CASE("sheet that is not magnetic counts as gap; on a beam nothing of this is said") {
    Section section = angleSection(60, 40, 100);
    section.material = "1050a-h14";
    const Part part = sectionPart(section);
    const Material aluminium = shipped("1050a-h14");
    const auto onBrake = [&](const Brake& brake) {
        return brakeFindings(partOnBrake(part, kShop, brake), &aluminium, kShop, brake);
    };
    CHECK(findingOf(onBrake(folder(50, 50)), "hold.gap"));
    Brake beam = folder(50, 60);
    beam.leaf().clamp = ClampKind::kOnBeam;
    CHECK_FALSE(findingOf(onBrake(beam), "hold.gap"));
    CHECK(foldFindings(partOnBrake(part, kShop, beam), &aluminium, kShop, beam, stepWith(100, 1)).empty());
}
