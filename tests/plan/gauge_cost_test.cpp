// SPDX-License-Identifier: GPL-3.0-or-later
// What gauging on a press brake does to the choice of an order: an edge of the flat sheet before what was bent, and
// that before a sight line.
#include <algorithm>

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <tinwright/io/shop/shop_io.h>

#include "../one_vee.h"
#include "plan_support.h"
#include "shop/shop_oracle.h"

namespace tinwright::test {

namespace {

Shop pressShop() {
    const Result<Shop> read = readShop(std::string(TINWRIGHT_SOURCE_DIR) + "/tests/plan/data/press-gooseneck.json");
    REQUIRE(read);
    Shop shop = read.value();
    for (const Vee& vee : veesOf(shop.brakes[0])) {
        if (vee.opening_mm != 12) continue;
        shop.brakes[0] = test::onlyVee(shop.brakes[0], vee);
        return shop;
    }
    FAIL("no V of 12");
    return shop;
}

Part sheetOf(const std::string& flanges) {
    return partFrom(fmt::format(
        R"({{"format":"tinwright-part/1","units":"mm","name":"part","sheet":{{"material":"mild-steel","thickness":1.5}},)"
        R"("allowance":{{"rule":"k-factor","k":0.42}},"inside_radius":1.92,"measured":"outside",)"
        R"("base":{{"name":"web","width":300,"depth":60}},"flanges":[{}]}})",
        flanges));
}

std::string flange(const char* name, const char* on, double length_mm, const char* direction) {
    return fmt::format(R"({{"name":"{}","on":"{}","length":{},"direction":"{}"}})", name, on, length_mm, direction);
}

// A zed, a hat, and a channel with a lip on one leg.
std::vector<Part> shapes() {
    return {sheetOf(flange("up", "web.front", 30, "up") + "," + flange("down", "web.back", 30, "down")),
            sheetOf(flange("left", "web.front", 30, "up") + "," + flange("right", "web.back", 30, "up") + "," +
                    flange("left_brim", "left.far", 20, "down") + "," + flange("right_brim", "right.far", 20, "down")),
            sheetOf(flange("left", "web.front", 30, "up") + "," + flange("right", "web.back", 30, "up") + "," +
                    flange("lip", "left.far", 14, "up"))};
}

long long expected_ms(const FoldStep& step, const Times& times) {
    if (!step.gauge_stop) return times.gauge_sight_ms;
    return std::min(step.gauge_stop->bends_between * times.gauge_formed_ms, times.gauge_sight_ms);
}

struct Gauged {
    int bends_between = 0;
    int by_sight = 0;
};

Gauged gaugedIn(const Plan& plan) {
    Gauged sum;
    for (const FoldStep& step : plan.folds) {
        if (step.gauge_stop)
            sum.bends_between += step.gauge_stop->bends_between;
        else
            ++sum.by_sight;
    }
    return sum;
}

}  // namespace

TEST_CASE("a fold on a press brake takes longer for each bend between, by what hangs on state and stroke alone") {
    const Shop priced = pressShop();
    Shop free = priced;
    free.times.gauge_formed_ms = free.times.gauge_sight_ms = 0;
    int formed = 0;
    for (const Part& part : shapes()) {
        ShopOracle with(part, priced, test::inUse(part, priced.brakes[0]));
        ShopOracle without(part, free, test::inUse(part, free.brakes[0]));
        for (BendMask state = 0; state < allFormed(part); ++state) {
            const std::vector<CandidateStroke>& candidates = with.candidates(state);
            const std::vector<CandidateStroke>& same = without.candidates(state);
            REQUIRE(candidates.size() == same.size());
            for (std::size_t i = 0; i < candidates.size(); ++i) {
                if (candidates[i].answer != StrokeAnswer::kPossible) continue;
                const StepCost cost = with.cost(state, kNothingSetUp, candidates[i]);
                const FoldStep step = with.engine().describe(
                    state, candidates[i], with.prices().made(with.answers().of(candidates[i]), cost.after));
                CHECK(cost.time_ms - without.cost(state, kNothingSetUp, same[i]).time_ms ==
                      expected_ms(step, priced.times));
                formed += step.gauge_stop && !step.gauge_stop->isFlat() ? 1 : 0;
            }
        }
    }
    CHECK(formed > 10);
}

// Common practice: outside in, from an unbent edge.
TEST_CASE(
    "the best order is gauged from edges of the flat sheet as far as can be, where what was bent before takes long") {
    Shop dear = pressShop();
    dear.times.gauge_formed_ms = 1'000'000;
    dear.times.gauge_sight_ms = 3'000'000;
    Shop free = dear;
    free.times.gauge_formed_ms = free.times.gauge_sight_ms = 0;
    int between = 0;
    int between_else = 0;
    for (const Part& part : shapes()) {
        const BrakeResult with = planVerified(part, dear, 0, 1);
        const BrakeResult without = planVerified(part, free, 0, 1);
        REQUIRE(with.work.proven_best);
        REQUIRE(without.work.proven_best);
        const Gauged best = gaugedIn(with.plans.at(0));
        const Gauged other = gaugedIn(without.plans.at(0));
        CAPTURE(part.bends.size(), best.bends_between, best.by_sight, other.bends_between, other.by_sight);
        CHECK(best.bends_between + 3 * best.by_sight <= other.bends_between + 3 * other.by_sight);
        CHECK(best.by_sight == 0);
        between += best.bends_between;
        between_else += other.bends_between;
    }
    CHECK(between < between_else);
}

}  // namespace tinwright::test
