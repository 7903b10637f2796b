// SPDX-License-Identifier: GPL-3.0-or-later
// What a machine would need: figures that a hand calculation knows, and each of them tried again on a brake that is
// changed here.
#include <catch2/catch.hpp>

#include <cmath>
#include <functional>
#include <numbers>

#include <fmt/format.h>

#include <tinwright/forming/metal/vee_choice.h>
#include <tinwright/io/recipe/recipe_io.h>
#include <tinwright/io/shop/shop_io.h>
#include <tinwright/part/developing/develop.h>
#include <tinwright/sequence/plan/planner.h>
#include <tinwright/sequence/remedies/machine_needs.h>

#include "../one_vee.h"

using namespace tinwright;

namespace {

// A shop with that one of a finger brake, a plain leaf brake and a press brake.
Shop shopWith(const std::string& brake) {
    Result<Shop> read = readShop(std::string(TINWRIGHT_SOURCE_DIR) + "/tests/suit/data/one-of-each.json");
    INFO((read ? std::string() : toText(read.issues().front())));
    REQUIRE(read.ok());
    Shop shop = std::move(read).value();
    std::erase_if(shop.brakes, [&](const Brake& other) { return other.name != brake; });
    REQUIRE(shop.brakes.size() == 1);
    return shop;
}

Part partOf(const Result<Recipe>& recipe) {
    INFO((recipe ? std::string() : toText(recipe.issues().front())));
    REQUIRE(recipe.ok());
    Result<Part> part = develop(recipe.value());
    REQUIRE(part.ok());
    return std::move(part).value();
}

Part example(const std::string& folder) {
    return partOf(readRecipeFile(std::string(TINWRIGHT_SOURCE_DIR) + "/examples/" + folder + "/part.json"));
}

Part strip(double length_mm) {
    return partOf(readRecipe(
        fmt::format(
            R"({{"format":"tinwright-part/1","units":"mm","name":"strip","sheet":{{"material":"mild-steel","thickness":1.5}},)"
            R"("allowance":{{"rule":"k-factor","k":0.44}},"inside_radius":1.6,"measured":"outside",)"
            R"("base":{{"name":"web","width":{},"depth":60}},"flanges":[{{"name":"leg","on":"web.front","length":30}}]}})",
            length_mm),
        "strip.json"));
}

bool goes(const Part& part, Shop shop, const std::function<void(Brake&)>& change) {
    change(shop.brakes[0]);
    return planOnBrake(part, shop, 0, {}).verdict == Verdict::kFeasible;
}

FigureNeed only(const MachineNeeds& needs) {
    REQUIRE(needs.found);
    REQUIRE(needs.ways[0].figures.size() == 1);
    return needs.ways[0].figures[0];
}

}  // namespace

// The housing is folded last at wall_front, held by that wall: the floor (150) swings to 93 degrees, and wall_back
// (120) then reaches back over the clamp, to 120 cos 3 + 150 sin 3 = 127.7 mm behind the bend, give or take the
// thickness and the radius.
TEST_CASE("a deep housing asks a finger brake for a gap behind the nose as a hand calculation has it") {
    const Part part = example("deep-housing");
    const Shop shop = shopWith("finger-brake");
    const FigureNeed need = only(machineNeeds(part, shop, test::inUse(part, shop.brakes[0]), {}));
    CHECK(need.figure == MachineFigure::kGapBehindNose);
    CHECK(need.has == shop.brakes[0].leaf().beam->front_y_mm);
    constexpr double kOverbend = 3 * std::numbers::pi / 180;
    CHECK(std::abs(need.needs - (120 * std::cos(kOverbend) + 150 * std::sin(kOverbend))) < 2.5);
    CHECK(goes(part, shop, [&](Brake& brake) { brake.leaf().beam->front_y_mm = need.needs; }));
    CHECK_FALSE(goes(part, shop, [&](Brake& brake) { brake.leaf().beam->front_y_mm = need.needs - 1; }));
}

// All of a bend lies under bars but for the uncovered end that the shop allows, at either end.
TEST_CASE("a strip longer than the brake asks for its length less the uncovered ends") {
    const Shop shop = shopWith("plain-leaf-brake");
    const double length_mm = shop.brakes[0].length_mm + 200;
    const MachineNeeds needs = machineNeeds(strip(length_mm), shop, test::inUse(strip(length_mm), shop.brakes[0]), {});
    REQUIRE(needs.found);
    REQUIRE(needs.ways[0].figures.size() == 2);  // and bars for it
    CHECK(needs.ways[0].figures[0].figure == MachineFigure::kLength);
    CHECK(needs.ways[0].figures[1].figure == MachineFigure::kPieceWidth);
    CHECK(needs.ways[0].figures[0].needs >= length_mm - 2 * shop.limits.uncovered_end_mm - 1);
    CHECK(needs.ways[0].figures[0].needs <= length_mm);
}

// What the housing would meet is the adapter's top, where the ram is wider: punches tall enough keep all of it away,
// and the ram must open so far.
TEST_CASE("a deep housing asks a press brake for taller punches and more open height, both tried again") {
    const Part part = example("deep-housing");
    Shop shop = shopWith("press-brake");
    shop.brakes[0] = test::onlyVee(shop.brakes[0], *test::inUse(part, shop.brakes[0]).vee());
    const MachineNeeds needs = machineNeeds(part, shop, test::inUse(part, shop.brakes[0]), {});
    REQUIRE(needs.found);
    const auto change = [&](Brake& brake, MachineFigure less) {
        for (const FigureNeed& need : needs.ways[0].figures) {
            const double value = need.needs - (need.figure == less ? 1 : 0);
            if (need.figure == MachineFigure::kOpenHeight) {
                brake.press().stroke_mm += value - need.has;
                brake.press().open_height_mm = value;
                continue;
            }
            REQUIRE(need.figure == MachineFigure::kPunchHeight);
            const double tip_to_seat_mm = need.has;  // goosenecks and straight punches have other heights
            for (Punch& punch : brake.press().punches) {
                if (punch.height_mm != tip_to_seat_mm) continue;
                for (Vec2& p : punch.profile) p.y() += p.y() > punch.height_mm - 0.001 ? value - need.has : 0.0;
                punch.height_mm += value - need.has;
            }
        }
    };
    CHECK(needs.ways[0].figures.size() == 2);
    CHECK(goes(part, shop, [&](Brake& brake) { change(brake, MachineFigure::kLength); }));
    for (const FigureNeed& need : needs.ways[0].figures) {
        CAPTURE(static_cast<int>(need.figure));
        CHECK_FALSE(goes(part, shop, [&](Brake& brake) { change(brake, need.figure); }));
    }
}

// The lips of the tray reach over the fingers that fold its last wall, whatever the beam does.
TEST_CASE("a part that no figure helps is told so") {
    const Part part = example("tray-lips");
    NeedsOptions options;
    options.max_work = 200'000;
    const MachineNeeds needs =
        machineNeeds(part, shopWith("finger-brake"), test::inUse(part, shopWith("finger-brake").brakes[0]), options);
    CHECK_FALSE(needs.found);
    CHECK_FALSE(needs.cut_short);
    CHECK(needs.ways.empty());
}

TEST_CASE("with no work allowed nothing is said of what a machine would need") {
    NeedsOptions options;
    options.max_work = 0;
    const MachineNeeds needs =
        machineNeeds(example("deep-housing"), shopWith("finger-brake"),
                     test::inUse(example("deep-housing"), shopWith("finger-brake").brakes[0]), options);
    CHECK(needs.cut_short);
    CHECK_FALSE(needs.found);
}

TEST_CASE("where the only punch has a horn, plain ones of its section are asked for") {
    const Part part = strip(200);
    Shop shop = shopWith("press-brake");
    for (Punch& punch : shop.brakes[0].press().punches) {
        if (punch.id != "S100L") punch.count = 0;
    }
    shop.brakes[0] = test::onlyVee(shop.brakes[0], *test::inUse(part, shop.brakes[0]).vee());
    REQUIRE(planOnBrake(part, shop, 0, {}).verdict == Verdict::kInfeasible);
    const FigureNeed need = only(machineNeeds(part, shop, test::inUse(part, shop.brakes[0]), {}));
    CHECK(need.figure == MachineFigure::kPieceWidth);
}
