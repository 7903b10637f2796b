// SPDX-License-Identifier: GPL-3.0-or-later
// Suggestions against planning every value of a dimension in steps of 0.1 mm, one by one.
#include <catch2/catch.hpp>

#include <cmath>
#include <map>
#include <set>

#include <tinwright/io/recipe/recipe_io.h>
#include <tinwright/io/shop/shop_io.h>
#include <tinwright/sequence/remedies/suit.h>

#include "../one_vee.h"

using namespace tinwright;

namespace {

Shop shopOf(const char* path) {
    Result<Shop> shop = readShop(std::string(TINWRIGHT_SOURCE_DIR) + path);
    REQUIRE(shop.ok());
    return std::move(shop).value();
}

Recipe recipeOf(const std::string& text) {
    Result<Recipe> recipe = readRecipe(text, "part.json");
    REQUIRE(recipe.ok());
    return std::move(recipe).value();
}

std::string tray(double width_mm, double depth_mm, double wall_mm) {
    std::string flanges;
    for (const std::string side : {"front", "right", "back", "left"}) {
        flanges += (flanges.empty() ? "" : ",") + (R"({"name":"wall_)" + side + R"(","on":"base.)" + side +
                                                   R"(","length":)" + std::to_string(wall_mm) + "}");
    }
    std::string corners;
    const char* sides[] = {"front", "right", "back", "left"};
    for (int i = 0; i < 4; ++i) {
        corners += std::string(i > 0 ? "," : "") + R"({"between":["wall_)" + sides[i] + R"(","wall_)" +
                   sides[(i + 1) % 4] + R"("],"type":"open","gap":2.5})";
    }
    return R"({"format":"tinwright-part/1","units":"mm","name":"tray","sheet":{"material":"mild-steel","thickness":1.5},"allowance":{"rule":"k-factor","k":0.44},
        "inside_radius":1,"measured":"inside","base":{"name":"base","width":{"value":)" +
           std::to_string(width_mm) + R"(,"name":"width"},"depth":)" + std::to_string(depth_mm) + R"(},"flanges":[)" +
           flanges + R"(],"corners":[)" + corners + "]}";
}

Suitability planned(const Recipe& drawn, double value_mm, const Shop& shop) {
    Recipe recipe = drawn;
    findDimension(recipe, "width")->value_mm = value_mm;
    Suitability found;
    found.verdict = Verdict::kInfeasible;
    const Result<Part> part = develop(recipe);
    if (!part) return found;
    PlanOptions options;
    options.plans = 1;
    const BrakeResult result = planOnBrake(part.value(), shop, 0, options);
    found.verdict = result.verdict;
    if (result.plans.empty()) return found;
    found.tight = result.plans[0].tight;
    found.least_cover = 1;
    for (const FoldStep& fold : result.plans[0].folds) {
        found.bars += fold.tools.size();
        found.least_cover = std::min(found.least_cover, fold.covered_share);
    }
    return found;
}

bool gains(const Suitability& before, const Suitability& after, Gain gain) {
    if (!after.works() || after.level() < before.level()) return false;
    switch (gain) {
        case Gain::kGoes: return !before.works();
        case Gain::kCleanly: return before.level() < SuitLevel::kTightly && after.level() >= SuitLevel::kTightly;
        case Gain::kComfortable:
            return before.level() < SuitLevel::kComfortably && after.level() == SuitLevel::kComfortably;
        case Gain::kFewerBars: return before.works() && after.bars < before.bars;
        case Gain::kBetterCover: return before.works() && after.least_cover >= before.least_cover + kCoverStep;
    }
    return false;
}

std::vector<Gain> wanted(SuitLevel level) {
    if (level == SuitLevel::kNoOrder) return {Gain::kGoes, Gain::kCleanly, Gain::kComfortable};
    if (level == SuitLevel::kTightly) return {Gain::kComfortable, Gain::kFewerBars, Gain::kBetterCover};
    return {Gain::kFewerBars, Gain::kBetterCover};
}

// Every suggestion is the nearest of its side with one of its gains, and for every gain the nearest of each side is
// suggested.
void compare(const Recipe& recipe, double value_mm, double reach_mm, const Shop& shop) {
    TweakedPart tweaks;
    tweaks.dimensions.push_back({"width", value_mm, value_mm - reach_mm, value_mm + reach_mm});
    tweaks.with = [&](const std::vector<DimensionValue>& values) {
        Recipe changed = recipe;
        for (const DimensionValue& one : values) findDimension(changed, "width")->value_mm = one.value_mm;
        return develop(changed);
    };
    const Result<Part> part = develop(recipe);
    REQUIRE(part.ok());
    const SuitResult found = suit(part.value(), tweaks, shop, test::inUse(part.value(), shop.brakes[0]), SuitOptions{});
    const Suitability drawn = planned(recipe, value_mm, shop);
    REQUIRE(found.as_drawn.level() == drawn.level());
    std::map<int, std::vector<Gain>> nearest;  // by tenths of a millimetre
    for (const int way : {1, -1}) {
        std::vector<Gain> open = wanted(drawn.level());
        const int first =
            static_cast<int>(way > 0 ? std::floor(value_mm * 10 + 1e-6) : std::ceil(value_mm * 10 - 1e-6));
        for (int step = 1; !open.empty(); ++step) {
            const double value = (first + way * step) / 10.0;
            if (std::abs(value - value_mm) > reach_mm + 1e-9) break;
            const Suitability there = planned(recipe, value, shop);
            for (auto gain = open.begin(); gain != open.end();) {
                if (!gains(drawn, there, *gain)) {
                    ++gain;
                    continue;
                }
                nearest[first + way * step].push_back(*gain);
                gain = open.erase(gain);
            }
        }
    }
    std::set<int> expected;
    for (const auto& [tenths, unused] : nearest) expected.insert(tenths);
    std::set<int> offered;
    for (const Suggestion& suggestion : found.suggestions)
        offered.insert(static_cast<int>(std::lround(suggestion.to_mm * 10)));
    CHECK(offered == expected);
    INFO(found.plans_made << " plans made");
    CHECK(found.plans_made < 120);
}

}  // namespace

TEST_CASE("suit offers what planning every tenth of a millimetre finds: trays on loose bars") {
    const Shop shop = shopOf("/examples/roaster-pod/shop.json");
    for (const double width : {70.0, 98.3, 141.0}) {
        CAPTURE(width);
        compare(recipeOf(tray(width, 61.5, 22)), width, 12, shop);
    }
}

TEST_CASE("suit offers what planning every tenth of a millimetre finds: a tray that goes as it is") {
    const Shop shop = shopOf("/examples/roaster-pod/shop.json");
    compare(recipeOf(tray(108.0, 61.5, 22)), 108.0, 10, shop);
}

TEST_CASE("suit offers what planning every tenth of a millimetre finds: the roaster pod") {
    const Shop shop = shopOf("/examples/roaster-pod/shop.json");
    Result<Recipe> recipe = readRecipeFile(std::string(TINWRIGHT_SOURCE_DIR) + "/examples/roaster-pod/part.json");
    REQUIRE(recipe.ok());
    Recipe pod = std::move(recipe).value();
    for (Dimension* dimension : {findDimension(pod, "inside_width")}) dimension->name = "width";
    compare(pod, 74, 8, shop);
}
