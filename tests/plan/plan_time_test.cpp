// SPDX-License-Identifier: GPL-3.0-or-later
// What a plan takes: the search, the report and the replay come to the same time, which can be added up from the cards;
// and tools of several sections are weighed for the whole plan.
#include <algorithm>
#include <map>

#include <fmt/format.h>
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/plan/plan_time.h>
#include <tinwright/forming/metal/vee_choice.h>
#include <tinwright/io/shop/shop_io.h>
#include <tinwright/report/json/plan_json.h>
#include <tinwright/sequence/search/search.h>
#include <tinwright/verify/replay/verify.h>

#include "../one_vee.h"
#include "plan_support.h"
#include "random_states.h"
#include "shop/shop_oracle.h"

namespace tinwright::test {

namespace {

struct Tally {
    int plans = 0, sights = 0, formed = 0, faces = 0, ways = 0, hems = 0, moved = 0, cared = 0;
};

using Standing = std::map<std::string, int>;  // piece and place, how often

Standing standing(const nlohmann::json& fold) {
    Standing pieces;
    for (const nlohmann::json& bar : fold["bars"]) {
        const long long at_um = std::llround(1000 * (bar["from_mm"].get<double>() + fold["part_x_mm"].get<double>()));
        ++pieces[fmt::format("{}@{}", bar["id"].get<std::string>(), at_um)];
    }
    return pieces;
}

/// Pieces of `a` that do not stand so in `b`, by what they are.
std::map<std::string, int> lacking(const Standing& a, const Standing& b) {
    std::map<std::string, int> ids;
    for (const auto& [piece, count] : a) {
        const auto same = b.find(piece);
        const int left = count - (same == b.end() ? 0 : same->second);
        if (left > 0) ids[piece.substr(0, piece.find('@'))] += left;
    }
    return ids;
}

/// In, out, or from one place to another.
int handled(const Standing& from, const Standing& to) {
    const std::map<std::string, int> out = lacking(from, to);
    const std::map<std::string, int> in = lacking(to, from);
    int count = 0;
    for (const auto& [id, pieces] : out) count += pieces;
    for (const auto& [id, pieces] : in) count += std::max(0, pieces - (out.contains(id) ? out.at(id) : 0));
    return count;
}

/// By hand from what the plan file tells of its folds, in seconds.
double addedUp_s(const nlohmann::json& plan, const Times& times, const std::string& first_face, Tally& tally) {
    double sum_ms = 0;
    Standing stands;
    std::string face = first_face;
    for (const nlohmann::json& fold : plan["folds"]) {
        sum_ms += static_cast<double>(times.fold_ms + times.gauge_ms);
        if (fold.contains("gauge") && fold["gauge"]["stop"].is_object()) {
            const int between = fold["gauge"]["stop"]["bends_between"];
            sum_ms += static_cast<double>(std::min(between * times.gauge_formed_ms, times.gauge_sight_ms));
            tally.formed += between > 0 ? 1 : 0;
        } else if (fold.contains("gauge") &&
                   !fold["gauge"]["trouble"].get<std::string>().starts_with("the brake has no")) {
            sum_ms += static_cast<double>(times.gauge_sight_ms);
            ++tally.sights;
        }
        const Standing now = standing(fold);
        const int pieces = handled(stands, now);
        tally.moved += pieces;
        sum_ms += static_cast<double>(pieces * times.piece_ms);
        stands = now;
        if (fold["leaf_face"].is_string() && fold["leaf_face"] != face) {
            face = fold["leaf_face"];
            sum_ms += static_cast<double>(times.leaf_face_ms);
            ++tally.faces;
        }
        if (!fold["packing"].is_null()) sum_ms += static_cast<double>(times.packing_ms);
        if (fold["turn_deg"] != 0) sum_ms += static_cast<double>(times.turn_ms);
        if (fold["flip"]) sum_ms += static_cast<double>(times.flip_ms);
        if (!fold["plain_ways"]) {
            sum_ms += static_cast<double>(times.way_out_ms);
            ++tally.ways;
        }
        for (const auto& care : fold["care"]) {
            sum_ms += static_cast<double>(care == "bars-packed"    ? times.bar_packing_ms
                                          : care == "bars-clamped" ? times.bar_clamps_ms
                                                                   : times.tongs_ms);
            ++tally.cared;
        }
        if (fold.contains("closing")) {
            sum_ms += static_cast<double>(times.hem_ms + (fold["closing"]["turned"] ? times.turn_ms : 0));
            ++tally.hems;
        }
    }
    return sum_ms / 1000;
}

void nameFaces(Brake& brake) {  // random brakes name them all alike
    if (brake.isPress()) return;
    std::vector<LeafFace>& faces = brake.leaf().leaf_faces;
    for (std::size_t i = 0; i < faces.size(); ++i) faces[i].name = fmt::format("face {}", i);
}

/// Of every order told: the search's time, that of the report and of its folds, and what the replay adds up.
void check(const Part& part, const Shop& shop, const BrakeInSetup& brake, Tally& tally) {
    ShopOracle oracle(part, shop, brake);
    SearchOptions options;
    options.plans = 3;
    options.max_counted_states = 0;
    const SearchResult found = searchOrders(oracle, 0, options);
    PlanOptions plan_options;
    plan_options.plans = 3;
    plan_options.explain = false;
    const BrakeResult result = planOnBrake(part, shop, brake, plan_options);
    REQUIRE(result.plans.size() == found.orders.size());
    PlanReport report{part, shop, 0, result.verdict, {BrakeReport{0, result, {}, {}, {}, {}, {}}}, {}, {}};
    const nlohmann::json document = nlohmann::json::parse(planJson(report));
    const std::string first_face = brake->isPress() ? "" : brake->leaf().leaf_faces.front().name;
    for (std::size_t i = 0; i < found.orders.size(); ++i) {
        CAPTURE(i);
        const Plan& plan = result.plans[i];
        CHECK(plan.cost_ms == found.orders[i].time_ms);
        const nlohmann::json& told = document["brakes"][0]["plans"][i];
        const double cost_s = told["cost_s"];
        CHECK(cost_s == Approx(static_cast<double>(plan.cost_ms) / 1000).margin(1e-9));
        double folds_s = 0;
        for (const nlohmann::json& fold : told["folds"]) folds_s += fold["time_s"].get<double>();
        CHECK(folds_s == Approx(cost_s).margin(1e-6));
        CHECK(addedUp_s(told, shop.times, first_face, tally) == Approx(cost_s).margin(1e-6));
        ++tally.plans;
    }
}

const auto isOfTime = [](const ReplayFinding& finding) {
    return finding.words.find("its folds come to") != std::string::npos;
};

Shop pressShop(const char* file, const Part& part) {
    const Result<Shop> read = readShop(std::string(TINWRIGHT_SOURCE_DIR) + "/" + file);
    REQUIRE(read);
    Shop shop = read.value();
    shop.brakes = {shop.brakes[0]};
    shop.brakes[0] = test::onlyVee(shop.brakes[0], *test::inUse(part, shop.brakes[0]).vee());
    return shop;
}

// A sheet of 1.5 mm with flanges in front and at the back, and what else is on it.
Part sheetWith(double web_mm, double length_mm, double leg_mm, const std::string& more) {
    return partFrom(fmt::format(
        R"({{"format":"tinwright-part/1","units":"mm","name":"part","sheet":{{"material":"mild-steel","thickness":1.5}},)"
        R"("allowance":{{"rule":"k-factor","k":0.42}},"inside_radius":1.92,"measured":"outside",)"
        R"("base":{{"name":"web","width":{},"depth":{}}},"flanges":[{{"name":"left","on":"web.front","length":{}}},)"
        R"({{"name":"right","on":"web.back","length":{}}}{}]}})",
        length_mm, web_mm, leg_mm, leg_mm, more));
}

const char* const kBrims = R"(,{"name":"left_brim","on":"left.far","length":20,"direction":"down"},)"
                           R"({"name":"right_brim","on":"right.far","length":20,"direction":"down"})";
const char* const kEnds = R"(,{"name":"end_left","on":"web.left","length":25,"from_left":4,"from_right":4},)"
                          R"({"name":"end_right","on":"web.right","length":25,"from_left":4,"from_right":4})";

}  // namespace

TEST_CASE("What a plan takes is the sum of its cards: search, report and a sum by hand agree on random parts") {
    Tally tally;
    for (std::uint64_t seed = 5000; seed < 5090; ++seed) {
        CAPTURE(seed);
        random_states::Case one = random_states::randomCase(seed);
        nameFaces(one.shop.brakes[0]);
        if (seed % 3 == 0) {
            random_states::Dice dice(seed);
            if (!random_states::makeHem(one.part, dice)) continue;
            random_states::letCloseHems(one.shop.brakes[0]);
        }
        check(one.part, one.shop, one.brake(), tally);
    }
    for (std::uint64_t seed = 7000; seed < 7090; ++seed) {
        CAPTURE(seed);
        random_states::Case one = random_states::randomPressCase(seed);
        if (seed % 4 != 0) one.shop.brakes[0].press().gauge = BackGauge{3, 400, 25, 12, -30, 120};
        check(one.part, one.shop, one.brake(), tally);
    }
    const Part hat = sheetWith(60, 300, 30, kBrims);  // gauged over what was bent before
    const Shop press = pressShop("tests/program/data/press-shop.json", hat);
    check(hat, press, test::inUse(hat, press.brakes[0]), tally);
    INFO(tally.plans << " plans, " << tally.moved << " pieces, " << tally.sights << " by sight, " << tally.formed
                     << " over formed bends, " << tally.faces << " faces, " << tally.ways << " ways, " << tally.hems
                     << " hems");
    CHECK(tally.plans > 80);
    CHECK(tally.moved > 100);
    CHECK(tally.sights > 10);
    CHECK(tally.formed > 1);
    CHECK(tally.faces > 0);
    CHECK(tally.ways > 10);
    CHECK(tally.hems > 1);
    CHECK(tally.cared > 20);
}

TEST_CASE("The replay adds a plan up and finds out when it is told to take another time") {
    const Part part = sheetWith(40, 150, 60, "");
    const Shop shop = pressShop("tests/plan/data/press-gooseneck.json", part);
    const BrakeResult result = planOnBrake(part, shop, test::inUse(part, shop.brakes[0]), {});
    REQUIRE_FALSE(result.plans.empty());
    Plan plan = result.plans.front();
    std::vector<ReplayFinding> findings = verifyPlan(part, shop, result.brake, plan, 0);
    CHECK(std::none_of(findings.begin(), findings.end(), isOfTime));
    plan.cost_ms -= 1000;
    findings = verifyPlan(part, shop, result.brake, plan, 0);
    CHECK(std::any_of(findings.begin(), findings.end(), isOfTime));
}

// All that gooseneck punches alone can do the whole set can do too. Deep channels of which a straight punch makes the
// first bend and not the second, so that punches were changed between.
TEST_CASE("With straight and gooseneck punches no plan takes longer than with gooseneck punches alone") {
    struct Shape {
        double web_mm, length_mm, leg_mm;
        const char* more;
    };
    int changed = 0;
    for (const Shape& shape :
         {Shape{40, 150, 60, ""}, {50, 180, 50, kEnds}, {45, 120, 60, ""}, {60, 180, 30, kBrims}}) {
        const Part part = sheetWith(shape.web_mm, shape.length_mm, shape.leg_mm, shape.more);
        CAPTURE(shape.web_mm, shape.leg_mm);
        const auto planWith = [&](const char* file) {
            const Shop shop = pressShop(file, part);
            PlanOptions options;
            options.plans = 1;
            options.explain = false;
            return planOnBrake(part, shop, test::inUse(part, shop.brakes[0]), options);
        };
        const BrakeResult alone = planWith("tests/plan/data/press-gooseneck.json");
        const BrakeResult straight = planWith("tests/plan/data/press-straight.json");
        const BrakeResult all = planWith("tests/program/data/press-shop.json");
        for (const BrakeResult* one : {&alone, &straight}) {
            if (one->plans.empty() || one->plans.front().tight) continue;
            REQUIRE_FALSE(all.plans.empty());
            REQUIRE(all.work.proven_best);
            CHECK_FALSE(all.plans.front().tight);
            CHECK(all.plans.front().cost_ms <= one->plans.front().cost_ms);
        }
        changed += straight.plans.empty() && !alone.plans.empty() ? 1 : 0;
    }
    CHECK(changed > 1);
}

}  // namespace tinwright::test
