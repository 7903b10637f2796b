// SPDX-License-Identifier: GPL-3.0-or-later
// The lower bound is consistent, and working backwards agrees with working forwards, on whole small lattices.
#include <catch2/catch.hpp>

#include <algorithm>
#include <bit>
#include <optional>

#include "bound.h"
#include "joins.h"
#include "levels.h"
#include "reach.h"

#include "random_oracle.h"

using namespace tinwright;
using namespace tinwright::test;
using namespace tinwright::search;

namespace {

/// Every step of every state, possible or not, from every setup that occurs.
void checkConsistent(ScriptedOracle& oracle, const Joins& joins) {
    const Bounds bounds(oracle, joins);
    for (BendMask formed = 0; formed < oracle.all(); ++formed) {
        for (const FoldMove& move : oracle.moves(formed)) {
            for (Standing before = 0; before < 4; ++before) {
                const StepCost cost = oracle.cost(formed, before, move);
                const Remaining here = bounds.of(formed, before);
                const Remaining after = bounds.of(formed | move.bends, cost.after);
                REQUIRE(here.time_ms <= cost.time_ms + after.time_ms);
                REQUIRE(here.pieces <= cost.pieces + after.pieces);
                const Remaining by = bounds.by(formed, before, move);
                REQUIRE(by.time_ms <= cost.time_ms + after.time_ms);
                REQUIRE(by.pieces <= cost.pieces + after.pieces);
            }
        }
    }
    REQUIRE(bounds.of(oracle.all(), kNothingStanding).time_ms == 0);
    REQUIRE(bounds.of(oracle.all(), kNothingStanding).pieces == 0);
}

/// What the header of Levels says, by recursion.
Finish bruteFinish(ScriptedOracle& oracle, BendMask formed) {
    if (formed == oracle.all()) return Finish::kYes;
    Finish best = Finish::kNo;
    for (const FoldMove& move : oracle.moves(formed)) {
        if (move.answer == FoldAnswer::kImpossible) continue;
        const Finish after = bruteFinish(oracle, formed | move.bends);
        best = std::max(best, move.answer == FoldAnswer::kUndecided ? std::min(after, Finish::kMaybe) : after);
    }
    return best;
}

}  // namespace

TEST_CASE("the bound is consistent on every small lattice") {
    for (std::uint64_t seed = 1; seed <= 300; ++seed) {
        CAPTURE(seed);
        const auto oracle = makeOracle({seed, 1 + seed % 7, 1, 3, 1, 0});
        checkConsistent(*oracle, findJoins(*oracle, 0));
    }
}

TEST_CASE("the bound is consistent when nothing is known of the lines") {
    for (std::uint64_t seed = 1; seed <= 100; ++seed) {
        CAPTURE(seed);
        const auto oracle = makeOracle({seed, 2 + seed % 5, 1, 3, 1, 0});
        Joins joins = findJoins(*oracle, 0);
        for (BendMask& with : joins.with) with = oracle->all();
        for (int& largest : joins.largest) largest = static_cast<int>(oracle->bendCount());
        checkConsistent(*oracle, joins);
    }
}

TEST_CASE("a line of three shares the bound, bends apart add up") {
    ScriptedOracle oracle(4);
    oracle.script_least_ms = [](std::size_t b) { return std::int64_t{b == 3 ? 700 : 900}; };
    oracle.script_lines = [](BendMask formed) {
        std::vector<BendMask> lines;
        if ((0b0111 & ~formed) != 0) lines.push_back(0b0111 & ~formed);
        if ((0b1000 & ~formed) != 0) lines.push_back(0b1000);
        return lines;
    };
    const Joins joins = findJoins(oracle, 0);
    CHECK(joins.with[0] == 0b0111);
    CHECK(joins.largest == std::vector<int>{3, 3, 3, 1});
    CHECK(Bounds(oracle, joins).quickTime_ms(0b1111) == 900 + 700);
    const Joins after_two = findJoins(oracle, 0b0011);
    CHECK(after_two.never());
    CHECK(Bounds(oracle, after_two).quickTime_ms(0b1100) == 1600);
}

TEST_CASE("a step needs both of its bends to say that they may join") {
    ScriptedOracle oracle(14);  // too many to survey
    oracle.script_may_join = [](std::size_t b) { return b == 0 ? BendMask{0b11} : BendMask{1} << b; };
    const Joins joins = findJoins(oracle, 0);
    CHECK(joins.never());
    CHECK(joins.joinable(0b1));
    CHECK_FALSE(joins.joinable(0b11));
    CHECK(oracle.lines_asked == 0);
}

TEST_CASE("levels from the finished part agree with recursion") {
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        CAPTURE(seed);
        const auto oracle =
            makeOracle({seed, 1 + seed % 6, 2, static_cast<int>(seed % 14), static_cast<int>(seed % 4), 0});
        const SearchOptions options;
        Meter meter(options);
        meter.allow(1000);
        const Joins joins = findJoins(*oracle, 0);
        StateTable table(*oracle, joins, meter);
        Levels levels(table);
        levels.advance(seed % 7);  // some levels
        for (BendMask formed = 0; formed <= oracle->all(); ++formed) {
            if (const std::optional<Finish> known = levels.known(formed))
                REQUIRE(*known == bruteFinish(*oracle, formed));
        }
        levels.advance(1000);  // all
        for (BendMask formed = 0; formed <= oracle->all(); ++formed) {
            REQUIRE(levels.known(formed) == std::optional(bruteFinish(*oracle, formed)));
        }
        Reach possible(table, levels, Reach::With::kPossible);
        Reach undecided(table, levels, Reach::With::kUndecided);
        REQUIRE(possible.finishes(0) == (bruteFinish(*oracle, 0) == Finish::kYes));
        REQUIRE(undecided.finishes(0) == (bruteFinish(*oracle, 0) != Finish::kNo));
    }
}

// Blocked one bend from the end, but not two: the last pair is made together. Working backwards must not stop too soon.
TEST_CASE("a barren level does not end the way backwards where a step can leap over it") {
    ScriptedOracle oracle(4);
    oracle.script_lines = [](BendMask formed) {
        std::vector<BendMask> lines;
        for (const BendMask line : {BendMask{0b0011}, BendMask{0b1100}}) {
            if ((line & ~formed) != 0) lines.push_back(line & ~formed);
        }
        return lines;
    };
    oracle.script_answer = [](BendMask, BendMask bends, int) {
        return std::popcount(bends) == 2 ? FoldAnswer::kPossible : FoldAnswer::kImpossible;
    };
    const SearchOptions options;
    Meter meter(options);
    meter.allow(1000);
    const Joins joins = findJoins(oracle, 0);
    StateTable table(oracle, joins, meter);
    Levels levels(table);
    levels.advance(4);
    CHECK(levels.known(0b0111) == Finish::kNo);
    CHECK_FALSE(levels.known(0b0011).has_value());
    levels.advance(6);
    CHECK(levels.known(0b0011) == Finish::kYes);
    CHECK(levels.known(0b0101) == Finish::kNo);
    CHECK(levels.known(0) == Finish::kYes);
}

TEST_CASE("reach forwards alone agrees with recursion") {
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        CAPTURE(seed);
        const auto oracle =
            makeOracle({seed, 1 + seed % 6, 2, static_cast<int>(seed % 14), static_cast<int>(seed % 4), 0});
        const SearchOptions options;
        Meter meter(options);
        meter.allow(1000);
        const Joins joins = findJoins(*oracle, 0);
        StateTable table(*oracle, joins, meter);
        Levels levels(table);
        Reach possible(table, levels, Reach::With::kPossible);
        Reach undecided(table, levels, Reach::With::kUndecided);
        for (BendMask formed = 0; formed <= oracle->all(); ++formed) {
            REQUIRE(possible.finishes(formed) == (bruteFinish(*oracle, formed) == Finish::kYes));
            REQUIRE(undecided.finishes(formed) == (bruteFinish(*oracle, formed) != Finish::kNo));
        }
    }
}
