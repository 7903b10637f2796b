// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan_support.h"

#include <algorithm>

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <tinwright/io/recipe/recipe_io.h>
#include <tinwright/io/shop/shop_io.h>
#include <tinwright/part/developing/develop.h>
#include <tinwright/report/sentences/reason_words.h>
#include <tinwright/verify/replay/verify.h>

namespace tinwright::test {

namespace {

std::string issuesOf(const Issues& issues) {
    std::string text;
    for (const Issue& issue : issues) text += toText(issue) + "\n";
    return text;
}

}  // namespace

Part partFrom(const std::string& recipe) {
    const Result<Recipe> read = readRecipe(recipe, "test recipe");
    INFO(issuesOf(read.issues()));
    REQUIRE(read.ok());
    Result<Part> part = develop(read.value());
    INFO(issuesOf(part.issues()));
    REQUIRE(part.ok());
    return std::move(part).value();
}

Shop shopFrom(const std::string& text) {
    const auto open = [](const ReferringFile&, const std::string& reference) -> Result<ReferencedFile> {
        return Issue{"test", "", "", reference, "a shop without references", ""};
    };
    Result<Shop> shop = readShopText(text, "test shop", open);
    INFO(issuesOf(shop.issues()));
    REQUIRE(shop.ok());
    return std::move(shop).value();
}

const Shop& shippedShop() {
    static const Shop shop = [] {
        Result<Shop> read = readShop(TINWRIGHT_SOURCE_DIR "/tests/plan/data/shipped-shop.json");
        INFO(issuesOf(read.issues()));
        REQUIRE(read.ok());
        return std::move(read).value();
    }();
    return shop;
}

std::size_t brakeNamed(const Shop& shop, const std::string& name) {
    const auto found =
        std::find_if(shop.brakes.begin(), shop.brakes.end(), [&](const Brake& brake) { return brake.name == name; });
    REQUIRE(found != shop.brakes.end());
    return static_cast<std::size_t>(found - shop.brakes.begin());
}

std::string trayRecipe(double length_mm, double depth_mm, double height_mm, double lip_mm) {
    std::string flanges;
    std::string corners;
    const char* const sides[] = {"front", "right", "back", "left"};
    for (int i = 0; i < 4; ++i) {
        flanges += fmt::format(R"({}{{"name":"wall_{}","on":"floor.{}","length":{}}})", i == 0 ? "" : ",", sides[i],
                               sides[i], height_mm);
        corners += fmt::format(R"({}{{"between":["wall_{}","wall_{}"],"type":"open","gap":{}}})", i == 0 ? "" : ",",
                               sides[i], sides[(i + 1) % 4], 1 + 0.06 * height_mm);
    }
    for (int i = 0; i < 4 && lip_mm > 0; ++i) {
        flanges += fmt::format(
            R"(,{{"name":"lip_{}","on":"wall_{}.far","length":{},"from_left":4,"from_right":4,"left_mitre":45,"right_mitre":45}})",
            sides[i], sides[i], lip_mm);
    }
    return fmt::format(
        R"({{"format":"tinwright-part/1","units":"mm","name":"tray","sheet":{{"material":"mild-steel","thickness":1.5}},)"
        R"("allowance":{{"rule":"k-factor","k":0.44}},"inside_radius":1,"measured":"outside",)"
        R"("base":{{"name":"floor","width":{},"depth":{}}},"flanges":[{}],"corners":[{}]}})",
        length_mm, depth_mm, flanges, corners);
}

BendId bendNamed(const Part& part, const std::string& name) {
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        if (part.bends[i].name == name) return idAt<BendId>(i);
    }
    FAIL("no bend " << name);
    return {};
}

BrakeResult planVerified(const Part& part, const Shop& shop, std::size_t brake, std::size_t plans) {
    PlanOptions options;
    options.plans = plans;
    BrakeResult result = planOnBrake(part, shop, brake, options);
    for (const Plan& plan : result.plans) {
        for (const ReplayFinding& finding : verifyPlan(part, shop, result.brake, plan, 0)) {
            FAIL_CHECK(part.name << " on " << shop.brakes[brake].name << ", plan " << plan.rank << ", fold "
                                 << finding.fold << ": " << finding.words);
        }
    }
    return result;
}

bool hasReason(const BrakeResult& result, ReasonCode code) {
    return std::any_of(result.reasons.begin(), result.reasons.end(),
                       [&](const Reason& reason) { return reason.code == code; });
}

std::string codesOf(const std::vector<Reason>& reasons) {
    std::string text;
    for (const Reason& reason : reasons) text += std::string(toText(reason.code)) + " ";
    return text;
}

std::string wordsOf(const Part& part, const Shop& shop, const BrakeInSetup& brake, const std::vector<Reason>& reasons) {
    std::string text;
    for (const Reason& reason : reasons) text += reasonWords({part, shop, brake}, reason) + "\n";
    return text;
}

}  // namespace tinwright::test
