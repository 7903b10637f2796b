// SPDX-License-Identifier: GPL-3.0-or-later
// What the shipped examples are shipped to show.
#include <catch2/catch.hpp>

#include <tinwright/io/recipe/recipe_io.h>
#include <tinwright/io/shop/shop_io.h>

#include "plan_support.h"

namespace tinwright::test {

namespace {

struct Example {
    Part part;
    Shop shop;
};

Example example(const std::string& folder, const std::string& part_file = "part.json") {
    const std::string base = std::string(TINWRIGHT_SOURCE_DIR) + "/examples/" + folder + "/";
    Result<Part> part = readPartFile(base + part_file);
    Result<Shop> shop = readShop(base + "shop.json");
    REQUIRE(part.ok());
    REQUIRE(shop.ok());
    return {std::move(part).value(), std::move(shop).value()};
}

}  // namespace

TEST_CASE("the roaster pod as first drawn suits no bars, and the reason names the width") {
    const Example pod = example("roaster-pod");
    const BrakeResult result = planVerified(pod.part, pod.shop, 0);
    CHECK(result.verdict == Verdict::kInfeasible);
    CHECK(hasReason(result, ReasonCode::kNoBars));
}

TEST_CASE("the roaster pod with suited dimensions plans, its tabs before the sides that close it") {
    const Example pod = example("roaster-pod", "part-suited.json");
    const BrakeResult result = planVerified(pod.part, pod.shop, 0);
    REQUIRE(result.verdict == Verdict::kFeasible);
    const auto place = [&](const std::string& name) {
        const std::vector<FoldStep>& folds = result.plans.front().folds;
        for (std::size_t i = 0; i < folds.size(); ++i) {
            for (const BendId bend : bendsIn(folds[i].stroke.bends)) {
                if (pod.part.bend(bend).name == name) return i;
            }
        }
        FAIL("no fold of " << name);
        return std::size_t{0};
    };
    CHECK(place("tab_left") < place("side_left"));
}

TEST_CASE("the tray with lips, the hat channel and the deep housing come out as their folders say") {
    const Example tray = example("tray-lips");
    CHECK(planVerified(tray.part, tray.shop, 0).verdict == Verdict::kFeasible);
    const Example hat = example("hat-channel");
    CHECK(planVerified(hat.part, hat.shop, 0).verdict == Verdict::kFeasible);
    const Example housing = example("deep-housing");
    CHECK(planVerified(housing.part, housing.shop, brakeNamed(housing.shop, "finger-brake")).verdict ==
          Verdict::kInfeasible);
    CHECK(planVerified(housing.part, housing.shop, brakeNamed(housing.shop, "magnetic-folder")).verdict ==
          Verdict::kFeasible);
}

}  // namespace tinwright::test
