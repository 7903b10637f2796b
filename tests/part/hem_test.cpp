// SPDX-License-Identifier: GPL-3.0-or-later
// Hems of recipes and drawings: their strip, where the return ends up, and how a brake folds them first.
#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/hemming.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/part/allowance/allowance.h>
#include <tinwright/part/model/pose.h>

#include "recipes.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

constexpr double kThickness_mm = 1.25;

Part hemmed(double gap_mm, bool up = true, double return_mm = 12) {
    Recipe recipe = plate(100, 60, kThickness_mm, 1, Measured::kOutside);
    recipe.allowance = {AllowanceRule::kKFactor, 0.42};
    Flange& rim = addFlange(recipe, "rim", "base.front", return_mm, 90, up);
    rim.hem_gap_mm = gap_mm;
    const Result<Part> part = develop(recipe);
    INFO((part ? std::string() : textOf(part.issues())));
    REQUIRE(part);
    return part.value();
}

double area_mm2(const Part& part) {
    double all = 0;
    for (const Panel& panel : part.panels) all += tinwright::area_mm2(panel.region);
    for (const Bend& bend : part.bends) {
        for (const StripSpan& span : bend.spans) all += bend.allowance_mm * (span.to_mm - span.from_mm);
    }
    return all;
}

Brake leafBrake() {
    Brake brake;
    brake.leaf().nose_radius_mm = 1;
    brake.leaf().max_leaf_angle = Angle::degrees(135);
    brake.leaf().hem_thickness_mm = 2;
    Bar bar;
    bar.profile = {{1, 0}, {60, 0}, {60, 60}, {61, 60}, {0.3, 1}, {0.3, 0.3}};
    brake.leaf().bars = {bar};
    return brake;
}

}  // namespace

// Hem tables take 43 % of the thickness off the sum of the outside dimensions of a closed hem (common practice, from
// memory): the neutral fibre in the middle of the sheet gives (2 - π / 2) t.
TEST_CASE("a closed hem takes 43 % of a thickness off the outside dimensions") {
    const Part part = hemmed(0);
    const Bend& bend = part.bends[0];
    CHECK(bend.allowance_mm == Approx(0.5 * std::numbers::pi * kThickness_mm));
    const double deduction_mm = bendDeduction_mm(bend.angle, bend.inside_radius_mm, kThickness_mm, bend.allowance_mm);
    CHECK(deduction_mm / kThickness_mm == Approx(0.43).margin(0.001));
    double low = 1e9, high = -1e9;
    for (const Vec2& p : part.blank.outline) {
        low = std::min(low, p.y());
        high = std::max(high, p.y());
    }
    CHECK(high - low == Approx(60 + 12 - deduction_mm));
}

TEST_CASE("the strip of an open hem goes by the recipe's rule round half its gap") {
    const Part part = hemmed(3);
    CHECK(part.bends[0].allowance_mm == Approx(std::numbers::pi * (1.5 + 0.42 * kThickness_mm)));
    CHECK(part.bends[0].inside_radius_mm == 1.5);
    CHECK(part.bends[0].hem->gap_mm == 3);
}

TEST_CASE("the return of a hem lies a gap from its parent, its edge as far from the fold as the recipe says") {
    for (const bool up : {true, false}) {
        for (const double gap_mm : {0.0, 2.0}) {
            const Part part = hemmed(gap_mm, up);
            const std::vector<Rigid> poses = baseFromPanels(part, allFormed(part));
            double low = 1e9, high = -1e9, back = -1e9;
            for (const Vec2& p : part.panels[1].region.outline) {
                for (const double z : {0.0, kThickness_mm}) {
                    const Vec3 at = poses[1] * Vec3(p.x(), p.y(), z);
                    low = std::min(low, at.z());
                    high = std::max(high, at.z());
                    back = std::max(back, at.y());
                }
            }
            CHECK(low == Approx(up ? kThickness_mm + gap_mm : -gap_mm - kThickness_mm));
            CHECK(high == Approx(up ? 2 * kThickness_mm + gap_mm : -gap_mm));
            // The base's front edge as dimensioned, from the outside of the fold, is at the blank's y where base and
            // strip meet, less the fold.
            const double tangent = part.bends[0].origin.y() + 0.5 * part.bends[0].allowance_mm;
            const double fold = tangent - 0.5 * gap_mm - kThickness_mm;
            CHECK(back - fold == Approx(12));
        }
    }
}

TEST_CASE("a radius that a brake gives leaves hems as they are") {
    const Part part = hemmed(2);
    CHECK(baseFromPanels(part, allFormed(part), 5.0)[1].matrix() == baseFromPanels(part, allFormed(part))[1].matrix());
}

TEST_CASE("the first fold of a hem takes more sheet, and no sheet is lost") {
    Shop shop;
    shop.overbend.default_deg = 3;
    const BrakeInSetup brake = inSetup(leafBrake(), kThickness_mm);
    const Part part = hemmed(0);
    const PartOnBrake folded_on_brake = partOnBrake(part, shop, brake);
    const Part& folded = folded_on_brake.part();
    const Bend& first = folded.bends[0];
    CHECK(first.angle.deg() == Approx(132));
    CHECK(first.inside_radius_mm == 1);
    CHECK(first.allowance_mm == Approx(Angle::degrees(132).rad() * (1 + 0.5 * kThickness_mm)));
    CHECK(first.hem == part.bends[0].hem);
    CHECK(area_mm2(folded) == Approx(area_mm2(part)));
    CHECK(finished(first).angle == part.bends[0].angle);
    CHECK(finished(first).allowance_mm == part.bends[0].allowance_mm);
    CHECK_FALSE(whyNoHem(folded_on_brake, shop, brake, BendId{0}));
    // An open hem wider than the nose gives sheet back to the panels.
    const Part open = hemmed(8);
    const PartOnBrake open_folded_on_brake = partOnBrake(open, shop, brake);
    const Part& open_folded = open_folded_on_brake.part();
    CHECK(open_folded.bends[0].allowance_mm < open.bends[0].allowance_mm);
    CHECK(area_mm2(open_folded) == Approx(area_mm2(open)));
}

TEST_CASE("a return that the first fold would swallow is refused") {
    Shop shop;
    const BrakeInSetup brake = inSetup(leafBrake(), kThickness_mm);
    const Part part = hemmed(0, true, 2);
    const PartOnBrake folded_on_brake = partOnBrake(part, shop, brake);
    const Part& folded = folded_on_brake.part();
    const auto why = whyNoHem(folded_on_brake, shop, brake, BendId{0});
    REQUIRE(why);
    CHECK(why->why == NoHem::Why::kSwallowed);
    CHECK(toText(*why, folded).find("no longer than what its first fold takes") != std::string::npos);
}

TEST_CASE("a hem carries no flange, and says nothing of angle and radius") {
    Recipe recipe = plate(100, 60, 1, 1, Measured::kOutside);
    recipe.allowance = {AllowanceRule::kKFactor, 0.42};
    addFlange(recipe, "rim", "base.front", 12).hem_gap_mm = 0;
    addFlange(recipe, "tab", "rim.far", 12);
    const Result<Part> part = develop(recipe);
    REQUIRE_FALSE(part.ok());
    CHECK(part.issues()[0].code == "recipe.flange.on");
    recipe.flanges.pop_back();
    recipe.flanges[0].hem_gap_mm = 21;
    CHECK_FALSE(develop(recipe).ok());
    recipe.flanges[0].hem_gap_mm = -0.1;
    CHECK_FALSE(develop(recipe).ok());
}
