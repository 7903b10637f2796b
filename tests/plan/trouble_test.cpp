// SPDX-License-Identifier: GPL-3.0-or-later
// Plans round the trouble: orders are ranked by what they spoil, care has its time, the verdict says what is left, and
// a cure is told only when the plan with it keeps the promise.
#include <algorithm>
#include <random>

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <tinwright/brake/machines/part_on_brake.h>
#include <tinwright/brake/plan/plan_time.h>
#include <tinwright/forming/checks/check.h>
#include <tinwright/forming/checks/stroke_troubles.h>
#include <tinwright/forming/webs/cut_out_cures.h>
#include <tinwright/io/recipe/recipe_io.h>
#include <tinwright/io/shop/materials_io.h>
#include <tinwright/io/shop/shop_io.h>
#include <tinwright/sequence/remedies/remedies.h>
#include <tinwright/sequence/search/search.h>

#include "../one_vee.h"
#include "brute_force.h"
#include "plan_support.h"
#include "shop/shop_oracle.h"

namespace tinwright::test {

namespace {

const std::string kExample = std::string(TINWRIGHT_SOURCE_DIR) + "/examples/pump-cover/";

Part partOf(const char* file) {
    Result<Part> part = readPartFile(kExample + file);
    REQUIRE(part);
    return std::move(part).value();
}

Shop exampleShop() {
    Result<Shop> shop = readShop(kExample + "shop.json");
    REQUIRE(shop);
    return std::move(shop).value();
}

Shop pressShop() {
    Result<Shop> shop = readShop(std::string(TINWRIGHT_SOURCE_DIR) + "/tests/program/data/press-shop.json");
    REQUIRE(shop);
    return std::move(shop).value();
}

Vee wideVee(const Brake& brake) {
    Vee wide;
    for (const Vee& vee : veesOf(brake)) {
        if (vee.opening_mm <= 16) wide = vee;
    }
    return wide;
}

Material materialNamed(const std::string& id) {
    const Result<Materials> materials = readShippedMaterials();
    REQUIRE(materials);
    REQUIRE(materials.value().find(id) != nullptr);
    return *materials.value().find(id);
}

/// Added up again from the findings of its folds, as they are told.
Spoils toldOf(const Part& part, const Shop& shop, const BrakeInSetup& brake, const Plan& plan, const Material* material,
              BendMask formed = 0) {
    const PartOnBrake folded = partOnBrake(part, shop, brake);
    Spoils spoils;
    for (const FoldStep& fold : plan.folds) {
        for (const Finding& finding : foldFindings(folded, material, shop, brake, fold, formed))
            spoils += spoilsOf(finding);
        formed |= fold.stroke.bends;
    }
    return spoils;
}

const FoldStep& foldOf(const Part& part, const Plan& plan, const char* bend) {
    return *std::find_if(plan.folds.begin(), plan.folds.end(),
                         [&](const FoldStep& fold) { return contains(fold.stroke.bends, bendNamed(part, bend)); });
}

/// The best orders are those of all orders, holds and strings tried, by (spoils, tight, time).
SearchResult checkRanking(const Part& part, const Shop& shop, const BrakeInSetup& on, BendMask formed,
                          std::size_t plans, const Material* material) {
    ShopOracle searched(part, shop, on, Demand::kPossible, {}, material);
    SearchOptions options;
    options.plans = plans;
    SearchResult found = searchOrders(searched, formed, options);
    ShopOracle walked(part, shop, on, Demand::kPossible, {}, material);
    walked.prices().share(searched.prices().shared());
    const std::vector<BruteOrder> all = firstOfEachLike(walked, allOrders(walked, formed, false));
    REQUIRE(found.orders.size() == std::min(plans, all.size()));
    for (std::size_t k = 0; k < found.orders.size(); ++k) {
        CHECK(found.orders[k].spoils == all[k].spoils);
        CHECK(found.orders[k].tight == all[k].tight);
        CHECK(found.orders[k].time_ms == all[k].time_ms);
    }
    return found;
}

PlanOptions oneOrder(const Material* material) {
    PlanOptions options;
    options.material = material;
    options.explain = false;
    options.plans = 1;
    return options;
}

/// A bracket or tray with random windows near its bends.
std::string weakRecipe(std::mt19937& random, double nearest_mm = 5) {
    const auto real = [&](double lo, double hi) {
        return std::round(2 * std::uniform_real_distribution<double>(lo, hi)(random)) / 2;
    };
    const double width = real(60, 130);
    const double depth = real(50, 110);
    const double height = real(20, 45);
    std::string flanges;
    std::string cuts;
    const char* const kEdges[] = {"front", "back", "left", "right"};
    const int walls = 2 + static_cast<int>(random() % 3);
    for (int i = 0; i < walls; ++i)
        flanges += fmt::format(R"({}{{"name":"{}","on":"plate.{}","length":{},"left_mitre":2,"right_mitre":2}})",
                               i == 0 ? "" : ",", kEdges[i], kEdges[i], height);
    const double window = real(20, width - 16);
    cuts = fmt::format(
        R"({{"name":"window","on":"plate","shape":"rectangle","width":{},"height":{},"at":[{{"from":"left","datum":"{}","distance":{},"to":"near-side"}},{{"from":"front","datum":"inside","distance":{},"to":"near-side"}}]}})",
        window, real(8, 20), walls > 2 ? "inside" : "blank", (width - window) / 2, real(nearest_mm, nearest_mm + 7));
    if (random() % 2 == 0) {
        const double slot = real(15, width - 16);
        cuts += fmt::format(
            R"(,{{"name":"slot","on":"front","shape":"rectangle","width":{},"height":5,"at":[{{"from":"left","datum":"edge","distance":{},"to":"near-side"}},{{"from":"near","datum":"inside","distance":{},"to":"near-side"}}]}})",
            slot, (width - slot) / 2, real(nearest_mm, nearest_mm + 4));
    }
    std::string corners;
    for (const auto& [a, b] : {std::pair{0, 2}, {0, 3}, {1, 2}, {1, 3}}) {
        if (b < walls)
            corners += fmt::format(R"({}{{"between":["{}","{}"],"type":"open","gap":1.5}})", corners.empty() ? "" : ",",
                                   kEdges[a], kEdges[b]);
    }
    return fmt::format(
        R"({{"format":"tinwright-part/1","units":"mm","name":"weak","sheet":{{"material":"dc01","thickness":{}}},"allowance":{{"rule":"k-factor","k":0.44}},"inside_radius":1,"measured":"outside","base":{{"name":"plate","width":{},"depth":{}}},"flanges":[{}],"corners":[{}],"cut_outs":[{}]}})",
        random() % 2 == 0 ? 1 : 1.5, width, depth, flanges, corners, cuts);
}

}  // namespace

TEST_CASE("A face that is weak beside its window is held, though swinging it would be quicker") {
    const Part part = partOf("part.json");
    const Shop shop = exampleShop();
    const Material metal = materialNamed(part.material);
    PlanOptions options;
    options.material = &metal;
    options.plans = 8;
    const BrakeResult result = planOnBrake(part, shop, 0, options);
    CHECK(result.verdict == Verdict::kFeasible);
    REQUIRE(result.plans.size() == 8);
    CHECK_FALSE(result.plans.front().spoils.any());
    const FoldStep& front = foldOf(part, result.plans.front(), "side_front");
    CHECK(std::find(front.held.begin(), front.held.end(), part.bend(front.stroke.first()).parent) != front.held.end());
    for (std::size_t i = 0; i < result.plans.size(); ++i) {
        const Plan& plan = result.plans[i];
        CHECK(plan.spoils == toldOf(part, shop, result.brake, plan, &metal));
        if (i > 0)
            CHECK(std::tuple(result.plans[i - 1].spoils, result.plans[i - 1].tight) <=
                  std::tuple(plan.spoils, plan.tight));
    }
    const auto order = [](const Plan& plan) {
        std::vector<std::vector<BendId>> strokes;
        for (const FoldStep& fold : plan.folds) strokes.push_back(fold.bends());
        return strokes;
    };
    const TryResult tried = tryOrder(part, shop, 0, order(result.plans.front()), 0, {}, &metal);
    CHECK(tried.verdict == Verdict::kFeasible);
    CHECK_FALSE(tried.plan.spoils.any());
}

TEST_CASE("Where either side is weak the verdict is with trouble, and every cure that is told keeps its promise") {
    const Part part = partOf("part-slotted.json");
    const Shop shop = exampleShop();
    const Material metal = materialNamed(part.material);
    PlanOptions options;
    options.material = &metal;
    const BrakeResult result = planOnBrake(part, shop, 0, options);
    CHECK(result.verdict == Verdict::kWithTrouble);
    CHECK(result.plans.front().spoils == Spoils{1, 0});
    RemedyOptions wanted;
    wanted.material = &metal;
    wanted.max_work = 200'000;
    const Remedies remedies = findRemedies(part, {}, shop, 0, result, wanted);
    REQUIRE(remedies.list.size() >= 2);
    for (const Remedy& remedy : remedies.list) {
        if (remedy.kind != RemedyKind::kCutOut) continue;
        const std::optional<Part> changed = withCures(part, remedy.cut_outs);
        REQUIRE(changed);
        const BrakeResult again = planOnBrake(*changed, shop, 0, options);
        CHECK(again.verdict == Verdict::kFeasible);
        CHECK(again.verdict == remedy.result.verdict);
        CHECK(remedy.result.cost_ms == again.plans.front().cost_ms);
        CHECK(toldOf(*changed, shop, again.brake, again.plans.front(), &metal) == Spoils{});
    }
}

TEST_CASE("The cover's ranking by trouble, tightness and time is that of all orders, holds and strings tried") {
    const Part part = partOf("part-slotted.json");
    const Shop shop = exampleShop();
    const Material metal = materialNamed(part.material);
    const BrakeInSetup on = test::inUse(part, shop.brakes[0]);
    const BendMask tabs = bit(bendNamed(part, "tab_left")) | bit(bendNamed(part, "tab_right"));
    for (const BendMask formed : {tabs, bit(bendNamed(part, "tab_left")) | bit(bendNamed(part, "side_left"))}) {
        REQUIRE(checkRanking(part, shop, on, formed, 6, &metal).proven_best);
    }
}

TEST_CASE("What a search asks of a stroke is what the findings of its fold say, on random parts with windows") {
    std::mt19937 random(2301);
    const Material metal = materialNamed("dc01");
    int spoilt = 0;
    int cared = 0;
    for (int i = 0; i < 60; ++i) {
        const Part part = partFrom(weakRecipe(random));
        const Shop& shop = shippedShop();
        const std::size_t brake = i % 2 == 0 ? brakeNamed(shop, "M50") : brakeNamed(shop, "B");
        PlanOptions options;
        options.material = &metal;
        options.explain = false;
        const BrakeResult result = planOnBrake(part, shop, brake, options);
        for (const Plan& plan : result.plans) {
            CHECK(plan.spoils == toldOf(part, shop, result.brake, plan, &metal));
            BendMask formed = 0;
            for (const FoldStep& fold : plan.folds) {
                const auto findings =
                    foldFindings(partOnBrake(part, shop, result.brake), &metal, shop, result.brake, fold, formed);
                const auto says = [&](const char* id) {
                    return std::any_of(findings.begin(), findings.end(),
                                       [&](const Finding& finding) { return finding.id == id; });
                };
                CHECK(fold.care.bars_packed == says("hold.pack"));
                CHECK(fold.care.bars_clamped == says("hold.lifts"));
                cared += fold.care.any() ? 1 : 0;
                formed |= fold.stroke.bends;
            }
            spoilt += plan.spoils.any() ? 1 : 0;
        }
        if (result.plans.empty()) continue;
        const bool any = (result.plans.front().spoils + result.spoilt_anyway).any();
        CHECK(result.verdict == (any ? Verdict::kWithTrouble : Verdict::kFeasible));
    }
    CHECK(spoilt > 5);
    CHECK(cared > 5);
}

TEST_CASE("With trouble and care in the ranking the search agrees with all permutations, on leaf and press") {
    std::mt19937 random(2302);
    const Material metal = materialNamed("dc01");
    int spoilt = 0;
    int overloaded = 0;
    int clean = 0;
    for (int i = 0; i < 24; ++i) {
        const Part part = partFrom(weakRecipe(random));
        CAPTURE(i);
        const bool on_press = i % 2 == 1;
        Shop shop = on_press ? pressShop() : shippedShop();
        const std::size_t brake = on_press ? 0 : brakeNamed(shop, i % 4 == 0 ? "M50" : "M100");
        // So weak that strokes of two walls are over it, and some of one.
        if (on_press) shop.brakes[0].press().force_kn = 12;
        const BrakeInSetup on = test::inUse(part, shop.brakes[brake]);
        const SearchResult found = checkRanking(part, shop, on, 0, 4, &metal);
        const bool any = !found.orders.empty() && found.orders.back().spoils.any();
        ++(any ? (on_press ? overloaded : spoilt) : clean);
    }
    CHECK(spoilt > 1);
    CHECK(overloaded > 1);
    CHECK(clean > 1);
}

TEST_CASE("Each cure offered for random parts with windows gives the verdict that it promises, on leaf and press") {
    std::mt19937 random(2303);
    const Material metal = materialNamed("dc01");
    int on_leaf = 0;
    int on_press = 0;
    for (int i = 0; i < 200; ++i) {
        CAPTURE(i);
        const bool is_press = i % 8 == 1;
        // In a V the sheet bears near the bend: what lies farther out is not weakened by a window.
        const Part part = partFrom(weakRecipe(random, is_press ? 2.5 : 5));
        Shop shop = is_press ? pressShop() : shippedShop();
        // With a wide V alone: of several that is taken in which nothing is spoilt.
        if (is_press) shop.brakes[0] = test::onlyVee(shop.brakes[0], wideVee(shop.brakes[0]));
        const std::size_t brake = is_press ? 0 : brakeNamed(shop, i % 4 == 0 ? "B" : "M50");
        const PlanOptions options = oneOrder(&metal);
        const BrakeResult result = planOnBrake(part, shop, brake, options);
        if (result.verdict != Verdict::kWithTrouble) continue;
        RemedyOptions wanted;
        wanted.material = &metal;
        wanted.max_work = is_press ? 20'000 : 8'000;  // enough for some of each kind
        for (const Remedy& remedy : findRemedies(part, {}, shop, brake, result, wanted).list) {
            Verdict again = Verdict::kUndecided;
            if (remedy.kind == RemedyKind::kCutOut) {
                const std::optional<Part> changed = withCures(part, remedy.cut_outs);
                REQUIRE(changed);
                again = planOnBrake(*changed, shop, result.brake, options).verdict;
            } else if (remedy.kind == RemedyKind::kOtherBrake) {
                again = planOnBrake(part, shop, remedy.brake, options).verdict;
            } else if (remedy.kind == RemedyKind::kBar) {
                const BrakeInSetup richer = result.brake.with(withBars(*result.brake, remedy.bars));
                again = planOnBrake(part, shop, richer, options).verdict;
            }
            CHECK(again == remedy.result.verdict);
            CHECK(rankOf(again) >= rankOf(result.verdict));  // bars and brakes may cover bends better, no more
            if (remedy.kind == RemedyKind::kCutOut) CHECK(rankOf(again) > rankOf(result.verdict));
            ++(is_press ? on_press : on_leaf);
        }
    }
    CHECK(on_leaf > 40);
    CHECK(on_press > 2);
}

TEST_CASE("What check finds whatever the order no plan calls plainly feasible") {
    std::mt19937 random(2304);
    const Material metal = materialNamed("dc01");
    int faults = 0;
    for (int i = 0; i < 40; ++i) {
        const Part part = partFrom(weakRecipe(random));
        CAPTURE(i);
        const bool is_press = i % 2 == 1;
        Shop shop = is_press ? pressShop() : shippedShop();
        const std::size_t brake = is_press ? 0 : brakeNamed(shop, "M50");
        if (is_press) shop.brakes[0].press().force_kn = 10;
        const PlanOptions options = oneOrder(&metal);
        const BrakeResult result = planOnBrake(part, shop, brake, options);
        if (result.plans.empty()) continue;
        Spoils found;
        for (const Finding& finding : partFindings(part, &metal)) found += spoilsOf(finding);
        for (const Finding& finding : brakeFindings(partOnBrake(part, shop, result.brake), &metal, shop, result.brake))
            found += spoilsOf(finding);
        if (!found.any()) continue;
        ++faults;
        CHECK(result.verdict == Verdict::kWithTrouble);
    }
    CHECK(faults > 5);
}

}  // namespace tinwright::test
