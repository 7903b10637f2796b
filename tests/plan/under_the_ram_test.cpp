// SPDX-License-Identifier: GPL-3.0-or-later
// Parts that come out from under a ram only when it goes a part of its way and they are tilted meanwhile. Common
// practice at a press brake; every plan is replayed by the independent verifier.
#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <tinwright/io/shop/shop_io.h>

#include "../one_vee.h"
#include "plan_support.h"

namespace tinwright::test {

namespace {

// The shipped press brake, whose frames let nothing out sideways.
Shop closedPress(const std::string& punches) {
    const Result<Shop> read =
        readShop(fmt::format("{}/tests/plan/data/press-closed-{}.json", TINWRIGHT_SOURCE_DIR, punches));
    REQUIRE(read);
    return read.value();
}

Part sheetOf(double width_mm, double depth_mm, double thickness_mm, const std::string& flanges) {
    return partFrom(fmt::format(
        R"({{"format":"tinwright-part/1","units":"mm","name":"part","sheet":{{"material":"mild-steel","thickness":{}}},)"
        R"("allowance":{{"rule":"k-factor","k":0.44}},"inside_radius":1.92,"measured":"flat",)"
        R"("base":{{"name":"web","width":{},"depth":{}}},"flanges":[{}]}})",
        thickness_mm, width_mm, depth_mm, flanges));
}

std::string flange(const std::string& name, const std::string& on, double length_mm) {
    return fmt::format(R"({{"name":"{}","on":"{}","length":{}}})", name, on, length_mm);
}

Shop inOneVee(Shop shop, double opening_mm) {
    for (const Vee& vee : veesOf(shop.brakes[0])) {
        if (vee.opening_mm != opening_mm) continue;
        shop.brakes[0] = onlyVee(shop.brakes[0], vee);
        return shop;
    }
    FAIL("no V of " << opening_mm);
    return shop;
}

}  // namespace

TEST_CASE("An angle 500 long with legs of 500 comes out from between closed frames") {
    const Shop shop = inOneVee(closedPress("straight"), 12);
    const Part part = sheetOf(500, 500, 1.5, flange("leg", "web.front", 500));
    const BrakeResult result = planVerified(part, shop, 0);
    CAPTURE(codesOf(result.reasons));
    REQUIRE(result.verdict == Verdict::kFeasible);
    const std::vector<ExitMove>& out = result.plans.front().folds.front().way_out;
    REQUIRE(out.size() == 1);
    CHECK(out.front().kind == ExitMove::Kind::kPartTilted);
}

TEST_CASE("A door of six bends with returns of 20 to 30 is folded on a gooseneck between closed frames") {
    const Shop shop = inOneVee(closedPress("gooseneck"), 8);
    for (const double return_mm : {20.0, 25.0, 30.0}) {
        CAPTURE(return_mm);
        std::string flanges;
        for (const char* side : {"front", "back", "left", "right"})
            flanges += flange(fmt::format("wall_{}", side), fmt::format("web.{}", side), 30) + ",";
        flanges += flange("return_left", "wall_left.far", return_mm) + "," +
                   flange("return_right", "wall_right.far", return_mm);
        const BrakeResult result = planVerified(sheetOf(400, 300, 1, flanges), shop, 0, 1);
        CAPTURE(codesOf(result.reasons));
        CHECK(result.verdict == Verdict::kFeasible);
        CHECK(result.orders_feasible == "60");
    }
}

}  // namespace tinwright::test
