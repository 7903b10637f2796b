// SPDX-License-Identifier: GPL-3.0-or-later
// The order search against trying every sequence, on random scripted oracles.
#include <catch2/catch.hpp>

#include <tinwright/sequence/search/search.h>

#include "brute_force.h"
#include "random_oracle.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

struct Tally {
    int found = 0, none = 0, undecided = 0, tight = 0, short_lists = 0, uncounted = 0, grouped = 0, in_trouble = 0,
        clean = 0;
};

std::vector<Stroke> sequenceOf(const Order& order) {
    std::vector<Stroke> sequence;
    for (const OrderStep& step : order.steps) sequence.push_back(step.stroke);
    return sequence;
}

void checkSteps(ScriptedOracle& oracle, const Order& order) {
    BendMask formed = 0;
    MachineState machine_state = kNothingSetUp;
    for (const OrderStep& step : order.steps) {
        REQUIRE(step.formed == formed);
        REQUIRE(step.before == machine_state);
        REQUIRE(step.stroke.answer == StrokeAnswer::kPossible);
        const StepCost again = oracle.cost(formed, machine_state, step.stroke);
        const auto told = [](const StepCost& cost) {
            return std::tuple(cost.spoils, cost.time_ms, cost.larger_behind, cost.pieces, cost.tight, cost.clearance_um,
                              cost.after);
        };
        REQUIRE(told(step.cost) == told(again));
        formed |= step.stroke.bends;
        machine_state = step.cost.after;
    }
    REQUIRE(formed == oracle.all());
}

void checkList(ScriptedOracle& oracle, const SearchResult& result, const std::vector<BruteOrder>& all,
               std::size_t wanted) {
    REQUIRE(result.orders.size() == std::min(wanted, all.size()));
    for (std::size_t i = 0; i < result.orders.size(); ++i) {
        const Order& order = result.orders[i];
        REQUIRE(std::tuple(order.spoils, order.tight, order.time_ms, order.larger_behind, order.pieces,
                           order.clearance_um) == std::tuple(all[i].spoils, all[i].tight, all[i].time_ms,
                                                             all[i].larger_behind, all[i].pieces, all[i].clearance_um));
        REQUIRE(sequenceOf(order) == all[i].sequence);
        checkSteps(oracle, order);
    }
}

void checkProvenBest(const SearchResult& result, ScriptedOracle& oracle, std::size_t wanted) {
    const bool any_counts = result.orders.size() < wanted;
    const auto key = [](const auto& order) { return std::tuple(order.spoils, order.tight, order.time_ms); };
    bool spoiled = false;
    for (const BruteOrder& order : allOrders(oracle, 0, true)) {
        if (order.uses_undecided) spoiled = spoiled || any_counts || key(order) < key(result.orders.back());
    }
    if (spoiled) REQUIRE_FALSE(result.proven_best);
}

void checkCounts(const RandomInstance& in, ScriptedOracle& oracle, const SearchResult& result, Tally& tally) {
    REQUIRE(result.orders_total == std::to_string(bruteTotalCount(oracle, 0)));
    const std::uint64_t count = bruteFeasibleCount(oracle, 0);
    tally.uncounted += result.orders_feasible.empty() ? 1 : 0;
    if (in.undecided == 0) {
        const bool only_apart = count == 0 && result.end == SearchEnd::kFound;
        REQUIRE(result.orders_feasible == (only_apart ? "" : std::to_string(count)));
        return;
    }
    if (result.orders_feasible.empty()) return;
    for (std::uint64_t truth = 1; truth <= 6; ++truth) {  // a count that is told holds whatever the truth is
        RandomInstance decided = in;
        decided.truth = truth;
        REQUIRE(result.orders_feasible == std::to_string(bruteFeasibleCount(*makeOracle(decided), 0)));
    }
}

SearchEnd expectedEnd(ScriptedOracle& oracle, const std::vector<BruteOrder>& possible) {
    if (!possible.empty()) return SearchEnd::kFound;
    return allOrders(oracle, 0, true).empty() ? SearchEnd::kProvenNone : SearchEnd::kUndecidedFolds;
}

void check(const RandomInstance& in, std::size_t wanted, Tally& tally) {
    CAPTURE(in.seed, in.bends, in.holds, in.forbidden, in.undecided, wanted);
    const auto oracle = makeOracle(in);
    SearchOptions options;
    options.plans = wanted;
    const SearchResult result = searchOrders(*oracle, 0, options);
    if (!oracle->script_why) {  // which looks at strokes as well
        for (const auto& [state, times] : oracle->asked) REQUIRE(times == 1);
    }
    REQUIRE(result.states_opened == oracle->asked.size());

    const std::vector<BruteOrder> all = allOrders(*oracle, 0, false);
    REQUIRE(result.end == expectedEnd(*oracle, all));
    checkList(*oracle, result, firstOfEachLike(*oracle, all), wanted);
    checkCounts(in, *oracle, result, tally);
    if (!all.empty()) REQUIRE(result.least_ms <= all.front().time_ms);
    if (result.proven_best) REQUIRE(result.least_ms == all.front().time_ms);
    if (in.undecided == 0) REQUIRE(result.proven_best == (result.end == SearchEnd::kFound));
    if (result.end == SearchEnd::kFound) checkProvenBest(result, *oracle, wanted);
    if (result.end != SearchEnd::kFound) REQUIRE(result.deepest == bruteDeepestDeadEnd(*oracle, 0));

    tally.found += result.end == SearchEnd::kFound ? 1 : 0;
    tally.none += result.end == SearchEnd::kProvenNone ? 1 : 0;
    tally.undecided += result.end == SearchEnd::kUndecidedFolds ? 1 : 0;
    tally.tight += !result.orders.empty() && result.orders.back().tight ? 1 : 0;
    tally.in_trouble += !result.orders.empty() && result.orders.front().spoils.any() ? 1 : 0;
    tally.clean += !result.orders.empty() && !result.orders.front().spoils.any() ? 1 : 0;
    tally.short_lists += !result.orders.empty() && result.orders.size() < wanted ? 1 : 0;
    tally.grouped += !result.orders.empty() && result.orders[0].steps.size() < in.bends ? 1 : 0;
}

}  // namespace

TEST_CASE("search equals brute force: up to 5 bends, all decided") {
    Tally tally;
    for (std::uint64_t seed = 1; seed <= 1500; ++seed) {
        const RandomInstance in{seed, 1 + seed % 5, 1 + static_cast<int>(seed / 5 % 2), static_cast<int>(seed % 11), 0,
                                0};
        check(in, 1 + seed % 4, tally);
    }
    CHECK(tally.found > 500);
    CHECK(tally.none > 200);
    CHECK(tally.tight > 50);
    CHECK(tally.in_trouble > 100);
    CHECK(tally.clean > 70);
    CHECK(tally.short_lists > 50);
    CHECK(tally.grouped > 50);
}

TEST_CASE("search equals brute force: up to 5 bends, some undecided") {
    Tally tally;
    for (std::uint64_t seed = 10'001; seed <= 11'000; ++seed) {
        const RandomInstance in{seed,
                                2 + seed % 4,
                                1 + static_cast<int>(seed / 4 % 2),
                                static_cast<int>(seed % 11),
                                1 + static_cast<int>(seed % 3),
                                0};
        check(in, 1 + seed % 4, tally);
    }
    CHECK(tally.found > 300);
    CHECK(tally.undecided > 80);
    CHECK(tally.none > 200);
    CHECK(tally.uncounted < 500);
}

TEST_CASE("search equals brute force: 6 and 7 bends") {
    Tally tally;
    for (std::uint64_t seed = 2001; seed <= 2120; ++seed) {
        check({seed, 6, 1, static_cast<int>(2 + seed % 9), static_cast<int>(seed % 2), 0}, 5, tally);
    }
    for (std::uint64_t seed = 3001; seed <= 3060; ++seed)
        check({seed, 7, 1, static_cast<int>(4 + seed % 9), 0, 0}, 3, tally);
    for (std::uint64_t seed = 4001; seed <= 4040; ++seed)
        check({seed, 6, 2, static_cast<int>(12 + seed % 9), 0, 0}, 3, tally);
    CHECK(tally.found > 80);
    CHECK(tally.none > 40);
}

TEST_CASE("many orders of a part with ties everywhere equal brute force") {
    Tally tally;
    for (std::uint64_t seed = 5001; seed <= 5100; ++seed)
        check({seed, 4, 2, static_cast<int>(seed % 3), 0, 0}, 40, tally);
    CHECK(tally.found > 60);
}
