// SPDX-License-Identifier: GPL-3.0-or-later
// Large scripted parts: the work is counted, so these fail when the search gets worse, not when the machine is slow.
#include <catch2/catch.hpp>

#include <bit>
#include <string>

#include <tinwright/sequence/search/search.h>

#include "scripted_oracle.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

/// A box: `walls` walls and on each a lip; a lip goes before its wall, and setups cost as bars differ.
ScriptedOracle enclosure(std::size_t walls) {
    ScriptedOracle oracle(2 * walls);
    oracle.holds = 2;
    oracle.never_coincide = true;
    oracle.script_answer = [walls](BendMask formed, const Stroke& stroke) {
        const auto bend = stroke.first().index();
        const bool lip = bend >= walls;
        if (lip && contains(formed, idAt<BendId>(bend - walls))) return StrokeAnswer::kImpossible;
        if (!lip && !contains(formed, idAt<BendId>(bend + walls))) return StrokeAnswer::kImpossible;
        return stroke.hold == Side::kChild && !lip ? StrokeAnswer::kImpossible : StrokeAnswer::kPossible;
    };
    oracle.script_least_ms = [](std::size_t) { return 35'000; };
    oracle.least_pieces = 1;
    oracle.script_cost = [walls](BendMask, MachineState before, const CandidateStroke& candidate) {
        const auto bend = static_cast<std::size_t>(std::countr_zero(candidate.bends));
        const auto length = static_cast<MachineState>(1 + bend % walls % 2);  // two lengths of wall: two strings of
                                                                              // bars
        const MachineState after = length + 2 * (bend >= walls ? static_cast<unsigned>(candidate.hold) : 2u);
        const std::int64_t setup_ms = before == kNothingSetUp ? 40'000 : (before % 2 == after % 2 ? 0 : 40'000);
        const std::int64_t turn_ms = before == after ? 8'000 : 12'000;
        return StepCost{35'000 + setup_ms + turn_ms, static_cast<std::int32_t>(1 + length), false, 800, after};
    };
    return oracle;
}

/// All folds are possible until the last: then none is, whichever it is.
ScriptedOracle blockedAtTheEnd(std::size_t bends) {
    ScriptedOracle oracle(bends);
    oracle.never_coincide = true;
    oracle.script_answer = [bends](BendMask formed, const Stroke&) {
        return std::popcount(formed) + 1 == static_cast<int>(bends) ? StrokeAnswer::kImpossible
                                                                    : StrokeAnswer::kPossible;
    };
    return oracle;
}

/// Pairs of bends on one line each; a pair can be made together only while an even number of pairs is finished.
ScriptedOracle pairs(std::size_t count) {
    ScriptedOracle oracle(2 * count);
    oracle.script_lines = [count](BendMask formed) {
        std::vector<BendMask> lines;
        for (std::size_t pair = 0; pair < count; ++pair) {
            const BendMask line = (BendMask{3} << (2 * pair)) & ~formed;
            if (line != 0) lines.push_back(line);
        }
        return lines;
    };
    oracle.script_answer = [](BendMask formed, const Stroke& stroke) {
        const BendMask both = formed & (formed >> 1) & 0x5555;
        const bool together = std::popcount(stroke.bends) == 2;
        return together && std::popcount(both) % 2 != 0 ? StrokeAnswer::kImpossible : StrokeAnswer::kPossible;
    };
    oracle.script_least_ms = [](std::size_t b) { return 1000 + 10 * static_cast<std::int64_t>(b); };
    oracle.script_cost = [](BendMask, MachineState before, const CandidateStroke& candidate) {
        const auto last = static_cast<std::int64_t>(std::bit_width(candidate.bends)) - 1;
        const auto after = static_cast<MachineState>(1 + last / 2 % 3);
        return StepCost{1000 + 10 * last + (before == after ? 0 : 100), 1, false, 500, after};
    };
    return oracle;
}

}  // namespace

TEST_CASE("an enclosure of 12 bends") {
    ScriptedOracle oracle = enclosure(6);
    const SearchResult result = searchOrders(oracle, 0, {});
    CHECK(result.end == SearchEnd::kFound);
    CHECK(result.proven_best);
    CHECK(result.orders.size() == 3);
    CHECK(result.orders_total == "479001600");   // 12!, from memory
    CHECK(result.orders_feasible == "7484400");  // 12! / 2^6: of each lip and wall, the lip first
    CHECK(result.states_opened == 728 + 6);  // 3^6 - 1: each pair has neither, the lip, or both; and all but one lip,
                                             // for what may come last
    CHECK(result.labels_opened < 12'000);
}

TEST_CASE("an enclosure of 16 bends") {
    ScriptedOracle oracle = enclosure(8);
    const SearchResult result = searchOrders(oracle, 0, {});
    CHECK(result.proven_best);
    CHECK(result.orders_feasible == "81729648000");  // 16! / 2^8
    CHECK(result.states_opened == 6560 + 8);         // 3^8 - 1, and all but one lip
    CHECK(result.labels_opened < 120'000);
}

TEST_CASE("16 bends with nothing in the way: the bound goes straight to the orders") {
    ScriptedOracle oracle(16);
    oracle.never_coincide = true;
    oracle.script_least_ms = [](std::size_t) { return 1000; };
    oracle.least_pieces = 1;
    SearchOptions options;
    options.max_counted_states = 0;
    const SearchResult result = searchOrders(oracle, 0, options);
    CHECK(result.proven_best);
    CHECK(result.states_opened < 60);
    CHECK(result.labels_opened < 60);
}

TEST_CASE("20 bends blocked at the end are proven to have no order from a few states") {
    ScriptedOracle oracle = blockedAtTheEnd(20);
    SearchOptions options;
    options.max_dead_ends = 0;
    const SearchResult result = searchOrders(oracle, 0, options);
    CHECK(result.end == SearchEnd::kProvenNone);
    CHECK(result.states_opened < 100);
    CHECK(std::popcount(result.deepest) == 19);
}

// 14 bends are too many to look at the lines of every state: what may join is then only what the oracle says of it.
TEST_CASE("knowing less of the lines changes the work, not the answer") {
    std::string orders[2];
    std::uint64_t labels[2] = {};
    for (const bool told : {false, true}) {
        ScriptedOracle oracle = pairs(7);
        if (told) oracle.script_may_share_stroke = [](std::size_t b) { return BendMask{3} << (b / 2 * 2); };
        const SearchResult result = searchOrders(oracle, 0, {});
        CHECK(result.proven_best);
        CHECK(result.orders_total == "5040");  // 7!, a pair being one step
        for (const Order& order : result.orders) {
            orders[told] += std::to_string(order.time_ms) + ":";
            for (const OrderStep& step : order.steps) orders[told] += " " + std::to_string(step.stroke.bends);
        }
        labels[told] = result.labels_opened;
    }
    CHECK(orders[0] == orders[1]);
    CHECK(labels[1] < labels[0]);
}

// Bend 0 tempts (cheapest, first by number), but after it the last two bends cannot be folded: 8,192 states without a
// way out. The bound is sharp, so that what is counted is finding the way out.
TEST_CASE("a trap at the first step of 16 bends is left by working backwards") {
    ScriptedOracle oracle(16);
    oracle.never_coincide = true;
    oracle.script_answer = [](BendMask formed, const Stroke& stroke) {
        const BendMask last_two = 0xC000;
        const bool early = contains(formed, idAt<BendId>(0)) && (stroke.bends & last_two) != 0;
        return early ? StrokeAnswer::kImpossible : StrokeAnswer::kPossible;
    };
    const auto least_ms = [](std::size_t bend) { return std::int64_t{bend == 0 ? 1000 : 1100}; };
    oracle.script_least_ms = least_ms;
    oracle.least_pieces = 1;
    oracle.script_cost = [=](BendMask, MachineState, const CandidateStroke& candidate) {
        return StepCost{least_ms(static_cast<std::size_t>(std::countr_zero(candidate.bends))), 1, false, 1000, 1};
    };
    SearchOptions options;
    options.max_counted_states = 0;
    const SearchResult result = searchOrders(oracle, 0, options);
    CHECK(result.end == SearchEnd::kFound);
    CHECK(result.proven_best);
    CHECK(result.states_opened < 12'000);
}
