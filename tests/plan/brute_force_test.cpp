// SPDX-License-Identifier: GPL-3.0-or-later
// The order search against all permutations on real parts: same verdict, same best cost, same count of orders.
#include <random>

#include <catch2/catch.hpp>

#include <tinwright/part/edges/section.h>
#include <tinwright/sequence/search/search.h>

#include "../one_vee.h"
#include "brute_force.h"
#include "plan_support.h"
#include "shop/shop_oracle.h"

namespace tinwright::test {

namespace {

void compare(const Part& part, const Shop& shop, std::size_t brake) {
    ShopOracle searched(part, shop, test::inUse(part, shop.brakes[brake]));
    SearchOptions options;
    options.plans = 3;
    const SearchResult found = searchOrders(searched, 0, options);

    ShopOracle walked(part, shop, test::inUse(part, shop.brakes[brake]));
    walked.prices().share(searched.prices().shared());
    const std::vector<BruteOrder> all = firstOfEachLike(walked, allOrders(walked, 0, false));
    CHECK((found.end == SearchEnd::kFound) == !all.empty());
    CHECK(found.orders.size() == std::min<std::size_t>(3, all.size()));
    for (std::size_t i = 0; i < found.orders.size(); ++i) {
        const Order& order = found.orders[i];
        CHECK(order.spoils == all[i].spoils);
        CHECK(order.tight == all[i].tight);
        CHECK(order.time_ms == all[i].time_ms);
        CHECK(order.larger_behind == all[i].larger_behind);
        CHECK(order.pieces == all[i].pieces);
        CHECK(order.clearance_um == all[i].clearance_um);
    }
    if (!found.orders_feasible.empty()) CHECK(found.orders_feasible == std::to_string(bruteFeasibleCount(walked, 0)));
    CHECK(found.orders_total == std::to_string(bruteTotalCount(walked, 0)));
}

}  // namespace

TEST_CASE("the search agrees with all permutations on random sections of up to 5 bends") {
    constexpr unsigned kSeed = 771;
    std::mt19937 random(kSeed);
    const auto real = [&](double lo, double hi) {
        return std::round(std::uniform_real_distribution<double>(lo, hi)(random));
    };
    const Shop& shop = shippedShop();
    for (int i = 0; i < 24; ++i) {
        Section section;
        const int bends = 2 + i % 4;
        for (int k = 0; k <= bends; ++k) section.flats_mm.push_back(real(12, 80));
        for (int k = 0; k < bends; ++k) section.angles_deg.push_back(real(0, 3) < 1 ? -90 : 90);
        section.inside_radius_mm = 1;
        section.length_mm = real(50, 200);
        CAPTURE(kSeed, i, section.flats_mm, section.angles_deg);
        compare(sectionPart(section), shop, static_cast<std::size_t>(i) % shop.brakes.size());
    }
}

TEST_CASE("the search agrees with all permutations on trays and on parts of 6 and 7 bends with collinear tabs") {
    const Shop& shop = shippedShop();
    compare(partFrom(trayRecipe(160, 120, 40, 0)), shop, brakeNamed(shop, "M50"));
    compare(partFrom(trayRecipe(160, 120, 40, 0)), shop, brakeNamed(shop, "B"));
    const std::string head =
        R"({"format":"tinwright-part/1","units":"mm","name":"tabs","sheet":{"material":"mild-steel","thickness":1.5},)"
        R"("allowance":{"rule":"k-factor","k":0.44},"inside_radius":1,"measured":"outside",)"
        R"("base":{"name":"plate","width":200,"depth":120},"flanges":[)";
    const std::string tabs =
        R"({"name":"t1","on":"plate.front","length":25,"width":30,"from_left":10},)"
        R"({"name":"t2","on":"plate.front","length":25,"width":30,"from_left":85},)"
        R"({"name":"t3","on":"plate.front","length":25,"width":30,"from_left":160},)"
        R"({"name":"back","on":"plate.back","length":30},{"name":"left","on":"plate.left","length":30},)"
        R"({"name":"right","on":"plate.right","length":30})";
    const std::string corners =
        R"(],"corners":[{"between":["right","back"],"type":"open","gap":4},{"between":["back","left"],"type":"open","gap":4}]})";
    compare(partFrom(head + tabs + corners), shop, brakeNamed(shop, "M50"));
    compare(
        partFrom(head + tabs + R"(,{"name":"lip","on":"back.far","length":12,"from_left":6,"from_right":6})" + corners),
        shop, brakeNamed(shop, "M50"));
}

}  // namespace tinwright::test
