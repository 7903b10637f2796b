// SPDX-License-Identifier: GPL-3.0-or-later
// Which strings come under an inside width, as `bars` tells it without a part, against trays of that inside width
// folded on that brake.
#include <algorithm>
#include <random>

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/tooling/bar_fit.h>
#include <tinwright/fold/engine/fold_engine.h>

#include "plan_support.h"

namespace tinwright::test {

namespace {

// Open behind: its left and right walls stand when its front is folded.
Part openTray(double inside_mm, double radius_mm) {
    return partFrom(fmt::format(
        R"({{"format":"tinwright-part/1","units":"mm","name":"open tray","sheet":{{"material":"mild-steel","thickness":1}},)"
        R"("allowance":{{"rule":"k-factor","k":0.44}},"inside_radius":{},"measured":"inside",)"
        R"("base":{{"name":"floor","width":{},"depth":90}},"flanges":[{{"name":"left","on":"floor.left","length":40}},)"
        R"({{"name":"right","on":"floor.right","length":40}},{{"name":"front","on":"floor.front","length":30}}]}})",
        radius_mm, inside_mm));
}

// Loose bars of one section, square at their ends or relieved.
Shop folder(std::mt19937& dice, double radius_mm) {
    const auto roll = [&](int n) { return static_cast<int>(dice() % static_cast<unsigned>(n)); };
    const char* relief = roll(2) == 0 ? "" : R"(,"end_relief":{"length":3,"height":4})";
    std::string bars;
    const int count = 2 + roll(4);
    for (int i = 0; i < count; ++i)
        bars +=
            fmt::format(R"({}{{"id":"B{}","width":{},"clamp_depth":50,"height":25,"nose_angle_deg":45,"count":{}{}}})",
                        i == 0 ? "" : ",", i, 15 + 0.5 * roll(150), 1 + roll(2), relief);
    return shopFrom(fmt::format(
        R"({{"format":"tinwright-shop/1","units":"mm","name":"shop","brakes":[{{"name":"folder","length":900,)"
        R"("max_leaf_angle_deg":135,"leaf_faces":[{{"name":"full","reach":25,"thickness":12}}],"nose_radius":{},)"
        R"("bed":[[0,0],[0,-50],[110,-50],[110,0]],"above":"nothing","clamp":"loose-bars","overhang":"both",)"
        R"("bars":[{}]}}],"limits":{{"bar_gap":{},"uncovered_end":{},"plus_side":{},"clearance":{}}}}})",
        radius_mm, bars, roll(5), 2 + roll(5), 0.25 * (1 + roll(4)), 0.25 * (1 + roll(4))));
}

// The front, folded with the floor held while both walls stand.
StrokeResult frontBetweenWalls(const Part& part, const Shop& shop) {
    FoldEngine engine(part, shop, inSetup(shop.brakes[0], part.thickness_mm));
    return engine.check(bit(bendNamed(part, "left")) | bit(bendNamed(part, "right")),
                        {bit(bendNamed(part, "front")), Side::kParent});
}

}  // namespace

TEST_CASE("A tray goes between its walls on exactly those bars that are told for its inside width") {
    // Contact counts from a twentieth of a millimetre: nearer than this to where a string just comes in neither is
    // asked.
    constexpr double kNear_mm = 0.11;
    std::mt19937 dice(71);
    int goes = 0, does_not = 0, tight = 0, comfortable = 0;
    for (int round = 0; round < 300; ++round) {
        CAPTURE(round);
        const double radius_mm = 0.5 + 0.5 * static_cast<double>(dice() % 4);
        const Shop shop = folder(dice, radius_mm);
        const double inside_mm = 40 + 0.25 * static_cast<double>(dice() % 500);
        const BrakeInSetup brake = inSetup(shop.brakes[0], 1);
        const auto fitsAt = [&](double width_mm) { return barFits(brake, shop.limits, width_mm); };
        const std::vector<BarFit> less = fitsAt(inside_mm - kNear_mm);
        const std::vector<BarFit> more = fitsAt(inside_mm + kNear_mm);
        if (less.empty() != more.empty()) continue;
        CAPTURE(inside_mm, radius_mm);
        const StrokeResult result = frontBetweenWalls(openTray(inside_mm, radius_mm), shop);
        if (less.empty()) {
            CHECK(result.answer == StrokeAnswer::kImpossible);
            CHECK(result.code == ReasonCode::kNoBars);
            ++does_not;
            continue;
        }
        CHECK(result.answer == StrokeAnswer::kPossible);
        ++goes;
        // Other things than the bars may be tight too: the walls over the leaf, and the front as it passes them.
        if (less.front().comfortable != more.front().comfortable) continue;
        if (!less.front().comfortable) CHECK(result.tight);
        comfortable += result.tight ? 0 : 1;
        tight += less.front().comfortable ? 0 : 1;
    }
    CHECK(goes > 40);
    CHECK(does_not > 40);
    CHECK(tight > 1);
    CHECK(comfortable > 20);
}

// 71 mm less two radii of 1 mm is a bend of 69 mm, of which the bar of 60 mm leaves 4.5 mm at each end.
TEST_CASE("An inside width of 71 mm goes on a bar of 60 mm, with walls of 1 mm inside radius") {
    Shop shop = shippedShop();
    shop.brakes = {shop.brakes[brakeNamed(shop, "M50")]};
    shop.limits.uncovered_end_mm = 5;
    shop.limits.clearance_mm = 0.5;
    shop.limits.plus_side_mm = 0.3;
    const BrakeInSetup brake = inSetup(shop.brakes[0], 1);
    const std::vector<BarFit> fits = barFits(brake, shop.limits, 71);
    REQUIRE_FALSE(fits.empty());
    CHECK(toolNames(*brake, fits.front().counts) == "B60");
    CHECK(fits.front().comfortable);
    CHECK(frontBetweenWalls(openTray(71, brake.inside_radius_mm()), shop).answer == StrokeAnswer::kPossible);
}

}  // namespace tinwright::test
