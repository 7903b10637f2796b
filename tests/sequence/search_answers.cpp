// SPDX-License-Identifier: GPL-3.0-or-later
// What the search says of scripted oracles whose answers are known by hand.
#include <catch2/catch.hpp>

#include <algorithm>
#include <bit>
#include <chrono>
#include <string>
#include <thread>

#include <tinwright/sequence/search/search.h>

#include "random_oracle.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

std::string told(const SearchResult& result) {
    std::string text = std::to_string(static_cast<int>(result.end)) + " " + result.orders_feasible + "/" +
                       result.orders_total + " " + std::to_string(result.states_opened) + " " +
                       std::to_string(result.labels_opened);
    for (const Order& order : result.orders) {
        text += "\n" + std::to_string(order.time_ms) + " " + std::to_string(order.pieces) + " " +
                std::to_string(order.clearance_um);
        for (const OrderStep& step : order.steps)
            text += " " + std::to_string(step.stroke.bends) + "h" + std::to_string(static_cast<int>(step.stroke.hold));
    }
    return text;
}

/// Only bend 1 could go first, and whether it can is not decided.
ScriptedOracle undecidedFirst() {
    ScriptedOracle oracle(3);
    oracle.script_answer = [](BendMask formed, const Stroke& stroke) {
        if (formed == 0) return stroke.bends == 0b010 ? StrokeAnswer::kUndecided : StrokeAnswer::kImpossible;
        return StrokeAnswer::kPossible;
    };
    return oracle;
}

}  // namespace

TEST_CASE("a finished part needs no fold") {
    ScriptedOracle oracle(3);
    const SearchResult result = searchOrders(oracle, 0b111, {});
    CHECK(result.end == SearchEnd::kFound);
    CHECK(result.proven_best);
    REQUIRE(result.orders.size() == 1);
    CHECK(result.orders[0].steps.empty());
    CHECK(result.orders[0].clearance_um == 0);
    CHECK(result.orders_feasible == "1");
    CHECK(result.orders_total == "1");
    CHECK(result.states_opened == 0);
}

TEST_CASE("bends that are formed already are left out") {
    ScriptedOracle oracle(4);
    const SearchResult result = searchOrders(oracle, 0b0101, {});
    CHECK(result.orders_total == "2");
    CHECK(result.orders_feasible == "2");
    REQUIRE(result.orders.size() == 2);
    CHECK(result.orders[0].steps.size() == 2);
    CHECK(result.orders[0].steps[0].formed == 0b0101);
    CHECK(result.orders[0].steps[0].stroke.bends == 0b0010);
}

TEST_CASE("twenty bends on lines of their own: 20! orders, as a decimal string") {
    ScriptedOracle oracle(20);
    oracle.never_coincide = true;
    oracle.script_least_ms = [](std::size_t) { return 1000; };
    oracle.least_pieces = 1;
    const SearchResult result = searchOrders(oracle, 0, {});
    CHECK(result.orders_total == "2432902008176640000");  // 20!, from memory; 21! is over 64 bits
    CHECK(result.orders_feasible.empty());                // 2^20 states are over the limit
    CHECK(result.end == SearchEnd::kFound);
    CHECK(result.proven_best);
    CHECK(oracle.lines_asked < 61'000);
}

TEST_CASE("a count over 64 bits is exact") {
    ScriptedOracle oracle(25);
    oracle.never_coincide = true;
    oracle.script_least_ms = [](std::size_t) { return 1000; };
    SearchOptions options;
    options.max_counted_states = 10;
    options.max_states = 100;
    CHECK(searchOrders(oracle, 0, options).orders_total == "15511210043330985984000000");  // 25!, from memory
}

TEST_CASE("comfortable orders come before tight ones, however long they take") {
    ScriptedOracle oracle(2);
    oracle.script_cost = [](BendMask formed, MachineState, const CandidateStroke& candidate) {
        const bool first_is_0 = (formed | candidate.bends) == 1 || formed == 1;
        return StepCost{first_is_0 ? 1000 : 9000, 1, first_is_0 && formed == 0, first_is_0 ? 10 : 1000, 1};
    };
    const SearchResult result = searchOrders(oracle, 0, {});
    REQUIRE(result.orders.size() == 2);
    CHECK_FALSE(result.orders[0].tight);
    CHECK(result.orders[0].time_ms == 18000);
    CHECK(result.orders[1].tight);
    CHECK(result.orders[1].clearance_um == 10);
    CHECK(result.proven_best);
}

TEST_CASE(
    "of two orders that take as long the one with the smaller side at the gauge comes first, whatever is roomier") {
    ScriptedOracle oracle(3);
    oracle.holds = 2;
    oracle.script_cost = [](BendMask, MachineState, const CandidateStroke& candidate) {
        const bool parent_behind = candidate.hold == Side::kParent;
        StepCost cost{1000, parent_behind ? 1 : 2, false, parent_behind ? 5000 : 500, 1};
        if (candidate.bends == 0b010 && !parent_behind) cost.time_ms = 1001;  // time comes first all the same
        cost.larger_behind = parent_behind ? 1 : 0;
        return cost;
    };
    const SearchResult result = searchOrders(oracle, 0, {});
    REQUIRE(!result.orders.empty());
    CHECK(result.proven_best);
    CHECK(result.orders[0].time_ms == 3000);
    CHECK(result.orders[0].larger_behind == 1);
    for (const OrderStep& step : result.orders[0].steps)
        CHECK(step.stroke.hold == (step.stroke.bends == 0b010 ? Side::kParent : Side::kChild));
}

// Two ways to state {0,1}: the one that ranks first there (larger clearance) has the larger sequence; the third fold's
// small clearance makes both equal, and then the smaller sequence is the better order. Keeping K = 1 label would lose
// it.
TEST_CASE("a bottleneck further on lets the smaller sequence win") {
    ScriptedOracle oracle(3);
    oracle.script_answer = [](BendMask formed, const Stroke& stroke) {
        return stroke.bends == 0b100 && formed != 0b011 ? StrokeAnswer::kImpossible : StrokeAnswer::kPossible;
    };
    oracle.script_cost = [](BendMask formed, MachineState, const CandidateStroke& candidate) {
        const std::int64_t clearance_um =
            candidate.bends == 0b100 ? 100 : (formed == 0 && candidate.bends == 0b010 ? 900 : 500);
        return StepCost{1000, 1, false, clearance_um, 1};
    };
    SearchOptions options;
    options.plans = 1;
    const SearchResult result = searchOrders(oracle, 0, options);
    REQUIRE(result.orders.size() == 1);
    CHECK(result.orders[0].clearance_um == 100);
    CHECK(result.orders[0].steps[0].stroke.bends == 0b001);
}

TEST_CASE("undecided folds: not a no, not a yes") {
    ScriptedOracle oracle = undecidedFirst();
    const SearchResult result = searchOrders(oracle, 0, {});
    CHECK(result.end == SearchEnd::kUndecidedFolds);
    CHECK(result.orders.empty());
    CHECK(result.orders_feasible.empty());
    CHECK(result.orders_total == "6");
    CHECK(result.deepest == 0);
}

TEST_CASE("an undecided fold that leads nowhere does not hide a proven none") {
    ScriptedOracle oracle(3);
    oracle.script_answer = [](BendMask formed, const Stroke& stroke) {
        if (stroke.bends == 0b001) return StrokeAnswer::kImpossible;
        return formed == 0 ? StrokeAnswer::kUndecided : StrokeAnswer::kPossible;
    };
    const SearchResult result = searchOrders(oracle, 0, {});
    CHECK(result.end == SearchEnd::kProvenNone);
    CHECK(result.orders_feasible == "0");
}

TEST_CASE("an undecided fold spoils the proof only if it could be quicker") {
    for (const bool quicker : {true, false}) {
        ScriptedOracle oracle(3);
        oracle.script_least_ms = [=](std::size_t b) { return std::int64_t{b == 2 && !quicker ? 5000 : 1000}; };
        oracle.script_cost = [=](BendMask formed, MachineState, const CandidateStroke& candidate) {
            const std::int64_t least = candidate.bends == 0b100 && !quicker ? 5000 : 1000;
            return StepCost{least + (quicker && formed == 0 ? 500 : 0), 1, false, 1000, 1};
        };
        oracle.script_answer = [](BendMask formed, const Stroke& stroke) {
            return formed == 0 && stroke.bends == 0b010 ? StrokeAnswer::kUndecided : StrokeAnswer::kPossible;
        };
        const SearchResult result = searchOrders(oracle, 0, {});
        CHECK(result.end == SearchEnd::kFound);
        CHECK(result.orders.size() == 3);
        CHECK(result.proven_best == !quicker);
        CHECK(result.orders_feasible.empty());
    }
}

TEST_CASE("the deepest stuck state is the smallest of those with the most bends formed") {
    ScriptedOracle oracle(4);
    oracle.script_answer = [](BendMask formed, const Stroke&) {
        return std::popcount(formed) < 2 ? StrokeAnswer::kPossible : StrokeAnswer::kImpossible;
    };
    const SearchResult result = searchOrders(oracle, 0, {});
    CHECK(result.end == SearchEnd::kProvenNone);
    CHECK(result.deepest == 0b0011);
    CHECK(result.orders_feasible == "0");
}

TEST_CASE("bends of one line together: one step, where they can be") {
    ScriptedOracle oracle(3);
    oracle.script_lines = [](BendMask formed) {
        std::vector<BendMask> lines;
        if ((0b011 & ~formed) != 0) lines.push_back(0b011 & ~formed);
        if ((0b100 & ~formed) != 0) lines.push_back(0b100);
        return lines;
    };
    SECTION("all possible") {
        const SearchResult result = searchOrders(oracle, 0, {});
        CHECK(result.orders_feasible == "2");
        CHECK(result.orders_total == "2");
        REQUIRE(result.orders.size() == 3);
        CHECK(result.orders[0].steps.size() == 2);
        CHECK(result.orders[0].steps[0].stroke.bends == 0b011);
    }
    SECTION("only apart") {
        oracle.script_answer = [](BendMask, const Stroke& stroke) {
            return stroke.bends == 0b011 ? StrokeAnswer::kImpossible : StrokeAnswer::kPossible;
        };
        CHECK(searchOrders(oracle, 0, {}).orders_feasible == "6");
    }
    SECTION("together, but finished only when made apart") {
        oracle.script_answer = [](BendMask formed, const Stroke& stroke) {
            return stroke.bends == 0b100 && formed != 0b001 ? StrokeAnswer::kImpossible : StrokeAnswer::kPossible;
        };
        const SearchResult result = searchOrders(oracle, 0, {});
        CHECK(result.end == SearchEnd::kFound);
        CHECK(result.orders.size() == 1);
        CHECK(result.orders_feasible.empty());
        CHECK(result.orders_total == "2");
    }
}

TEST_CASE("the budget is counted in work and never turns into a no") {
    ScriptedOracle oracle(13);
    SearchOptions options;
    options.max_states = 5;
    options.max_counted_states = 5;
    SearchResult result = searchOrders(oracle, 0, options);
    CHECK(result.end == SearchEnd::kBudgetSpent);
    CHECK(result.orders.empty());
    CHECK_FALSE(result.out_of_time);
    CHECK(result.orders_feasible.empty());
    CHECK(result.orders_total.empty());
    CHECK(result.states_opened <= 10);

    options.max_states = 60;  // enough to find orders, not to prove them best
    result = searchOrders(oracle, 0, options);
    CHECK(result.end == SearchEnd::kFound);
    CHECK(result.orders.size() == 3);
    CHECK_FALSE(result.proven_best);
}

TEST_CASE("the seconds guard is told") {
    ScriptedOracle oracle(6);
    oracle.script_answer = [](BendMask, const Stroke&) {
        std::this_thread::sleep_for(std::chrono::milliseconds(1));
        return StrokeAnswer::kPossible;
    };
    SearchOptions options;
    options.time_limit_s = 1e-3;
    const SearchResult result = searchOrders(oracle, 0, options);
    CHECK(result.out_of_time);
    CHECK(result.end == SearchEnd::kBudgetSpent);
    options.time_limit_s = 1e9;
    CHECK_FALSE(searchOrders(oracle, 0, options).out_of_time);
}

TEST_CASE("progress is told from the calling thread, ascending") {
    ScriptedOracle oracle(9);
    std::vector<SearchProgress> told;
    SearchOptions options;
    options.progress = [&](const SearchProgress& progress) { told.push_back(progress); };
    const SearchResult result = searchOrders(oracle, 0, options);
    REQUIRE(told.size() > 3);
    for (std::size_t i = 1; i < told.size(); ++i) {
        CHECK(told[i].states >= told[i - 1].states);
        CHECK(told[i].partial_orders >= told[i - 1].partial_orders);
    }
    REQUIRE(told.back().best_ms.has_value());
    CHECK(told.back().least_ms <= told.back().best_ms);
    CHECK(*told.back().best_ms >= result.orders.front().time_ms);
}

TEST_CASE("when a limit ends the search the gap to the best there may be is told") {
    for (const bool memory : {false, true}) {
        const auto oracle = makeOracle({17, 9, 2, 3, 0, 0});
        const SearchResult whole = searchOrders(*oracle, 0, SearchOptions{});
        REQUIRE(whole.proven_best);
        SearchOptions options;
        options.max_states = memory ? options.max_states : whole.states_opened / 4;
        options.max_bytes = memory ? 200'000 : options.max_bytes;
        options.max_counted_states = 0;
        const SearchResult cut = searchOrders(*oracle, 0, options);
        CHECK(cut.out_of_memory == memory);
        CHECK_FALSE(cut.proven_best);
        CHECK(cut.least_ms <= whole.orders.front().time_ms);
        CHECK(cut.least_ms > 0);
        if (cut.end == SearchEnd::kFound) CHECK(cut.orders.front().time_ms >= whole.orders.front().time_ms);
    }
}

TEST_CASE("the same instance gives the same result and the same work") {
    for (std::uint64_t seed = 1; seed <= 30; ++seed) {
        const RandomInstance in{seed, 7, 2, static_cast<int>(seed % 9), static_cast<int>(seed % 2), 0};
        CHECK(told(searchOrders(*makeOracle(in), 0, {})) == told(searchOrders(*makeOracle(in), 0, {})));
    }
}
