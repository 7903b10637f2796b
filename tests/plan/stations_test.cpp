// SPDX-License-Identifier: GPL-3.0-or-later
// Set-ups side by side on a press brake: how they are laid out, and that a plan uses them where that saves changing
// tools.
#include <algorithm>
#include <map>

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <tinwright/forming/metal/vee_choice.h>
#include <tinwright/io/shop/shop_io.h>

#include "../one_vee.h"
#include "plan_support.h"
#include "random_states.h"
#include "shop/stations.h"

namespace tinwright::test {

namespace {

Shop pressShop(const Part& part) {
    const Result<Shop> read = readShop(std::string(TINWRIGHT_SOURCE_DIR) + "/tests/plan/data/press-straight.json");
    REQUIRE(read);
    Shop shop = read.value();
    shop.brakes[0] = test::onlyVee(shop.brakes[0], *test::inUse(part, shop.brakes[0]).vee());
    return shop;
}

// Long walls in front and at the back, short ones between them.
Part tray(double width_mm, double depth_mm, double height_mm) {
    const auto flange = [&](const char* side, double inset_mm) {
        return fmt::format(R"({{"name":"{0}","on":"floor.{0}","length":{1},"from_left":{2},"from_right":{2}}})", side,
                           height_mm, inset_mm);
    };
    return partFrom(fmt::format(
        R"({{"format":"tinwright-part/1","units":"mm","name":"tray","sheet":{{"material":"mild-steel","thickness":1.5}},)"
        R"("allowance":{{"rule":"k-factor","k":0.44}},"inside_radius":1.6,"measured":"outside",)"
        R"("base":{{"name":"floor","width":{},"depth":{}}},"flanges":[{},{},{},{}]}})",
        width_mm, depth_mm, flange("front", 0), flange("back", 0), flange("left", 3), flange("right", 3)));
}

bool sameTools(const FoldStep& a, const FoldStep& b) {
    const auto at = [](const FoldStep& step) {
        std::vector<std::pair<std::size_t, long long>> places;
        for (const PlacedTool& bar : step.tools)
            places.emplace_back(bar.tool.index(), std::llround((bar.from_mm + step.part_x_mm) * 1000));
        std::sort(places.begin(), places.end());
        return places;
    };
    return at(a) == at(b);
}

std::size_t changes(const Plan& plan) {
    std::size_t count = 0;
    for (std::size_t i = 1; i < plan.folds.size(); ++i) count += sameTools(plan.folds[i - 1], plan.folds[i]) ? 0 : 1;
    return count;
}

Setup randomSetUp(const Brake& brake, random_states::Dice& dice) {
    Setup setup{static_cast<std::size_t>(dice.below(2)), {}};
    Micron at = micronFloor(dice.between(0, 800));
    for (int i = 0; i <= dice.below(3); ++i) {
        std::size_t bar = 0;
        do bar = static_cast<std::size_t>(dice.below(static_cast<int>(brake.toolCount())));
        while (brake.tool(idAt<ToolId>(bar)).count == 0);
        const Micron width = micronFloor(brake.tool(idAt<ToolId>(bar)).width_mm);
        setup.pieces.push_back({idAt<ToolId>(bar), {at, at + width}});
        at += width;
    }
    return setup;
}

// The set-up stands in it, moved along the machine as a whole.
bool hasStation(const Setup& all, const Setup& station) {
    const auto shifted = [&](Micron by) {
        return std::all_of(station.pieces.begin(), station.pieces.end(), [&](const SetupPiece& piece) {
            return std::find(all.pieces.begin(), all.pieces.end(),
                             SetupPiece{piece.tool, {piece.at.lo + by, piece.at.hi + by}}) != all.pieces.end();
        });
    };
    return std::any_of(all.pieces.begin(), all.pieces.end(), [&](const SetupPiece& piece) {
        return piece.tool == station.pieces.front().tool && shifted(piece.at.lo - station.pieces.front().at.lo);
    });
}

}  // namespace

TEST_CASE("stations: within the machine, apart, of the shop's pieces, and each set-up whole") {
    const Part part = tray(300, 120, 30);
    const Brake brake = pressShop(part).brakes[0];
    std::size_t found = 0;
    for (std::uint64_t seed = 0; seed < 400; ++seed) {
        CAPTURE(seed);
        random_states::Dice dice(seed);
        std::vector<Setup> setups;
        for (int i = 0; i < 2 + dice.below(3); ++i) setups.push_back(randomSetUp(brake, dice));
        for (const Setup& all : stationsOf(brake, setups, micronCeil(dice.between(50, 400)))) {
            ++found;
            std::map<std::size_t, int> used;
            for (const SetupPiece& piece : all.pieces) {
                CHECK(piece.at.lo >= 0);
                CHECK(piece.at.hi <= micronCeil(brake.length_mm));
                ++used[piece.tool.index()];
            }
            for (const auto& [bar, count] : used) CHECK(count <= brake.tool(idAt<ToolId>(bar)).count);
            CHECK(std::is_sorted(all.pieces.begin(), all.pieces.end(),
                                 [](const SetupPiece& a, const SetupPiece& b) { return a.at.lo < b.at.lo; }));
            const auto whole = std::count_if(setups.begin(), setups.end(), [&](const Setup& setup) {
                return setup.face == all.face && hasStation(all, setup);
            });
            CHECK(whole >= 2);
        }
    }
    CHECK(found > 100);
}

TEST_CASE("stations: a set-up that stands in another is none of its own") {
    const Brake brake = pressShop(tray(300, 120, 30)).brakes[0];
    const Setup wide{0, {{idAt<ToolId>(0), {0, 50'000}}, {idAt<ToolId>(1), {50'000, 90'000}}}};
    const Setup narrow{0, {{idAt<ToolId>(0), {0, 50'000}}}};
    CHECK(stationsOf(brake, {wide, narrow}, 100'000).empty());
}

TEST_CASE(
    "stations: a tray with long and short walls is folded without changing tools, where a leaf brake's way would be to "
    "change them") {
    const Part part = tray(300, 120, 30);
    const Shop shop = pressShop(part);
    const BrakeResult result = planVerified(part, shop, 0);
    REQUIRE(result.verdict == Verdict::kFeasible);
    CHECK(result.work.proven_best);
    CHECK(changes(result.plans.front()) == 0);
    for (const Plan& plan : result.plans) CHECK(plan.cost_ms >= result.plans.front().cost_ms);
}

}  // namespace tinwright::test
