// SPDX-License-Identifier: GPL-3.0-or-later
// The lower bound is consistent, and working backwards agrees with working forwards, on whole small lattices.
#include <catch2/catch.hpp>

#include <algorithm>
#include <bit>
#include <optional>

#include "reach/backward_reach.h"
#include "reach/reach.h"
#include "search/bound.h"
#include "states/co_foldable.h"

#include "random_oracle.h"

using namespace tinwright;
using namespace tinwright::test;
using namespace tinwright::search;

namespace {

/// Every step of every state, possible or not, from every setup that occurs.
void checkConsistent(ScriptedOracle& oracle, const CoFoldable& co_foldable) {
    const Bounds bounds(oracle, co_foldable);
    for (BendMask formed = 0; formed < oracle.all(); ++formed) {
        for (const CandidateStroke& candidate : oracle.candidates(formed)) {
            for (MachineState before = 0; before < 4; ++before) {
                const StepCost cost = oracle.cost(formed, before, candidate);
                const Remaining here = bounds.of(formed, before);
                const Remaining after = bounds.of(formed | candidate.bends, cost.after);
                REQUIRE(here.time_ms <= cost.time_ms + after.time_ms);
                REQUIRE(here.pieces <= cost.pieces + after.pieces);
                const Remaining by = bounds.by(formed, before, candidate);
                REQUIRE(by.time_ms <= cost.time_ms + after.time_ms);
                REQUIRE(by.pieces <= cost.pieces + after.pieces);
            }
        }
    }
    REQUIRE(bounds.of(oracle.all(), kNothingSetUp).time_ms == 0);
    REQUIRE(bounds.of(oracle.all(), kNothingSetUp).pieces == 0);
}

/// What the header of BackwardReach says, by recursion.
Finish bruteFinish(ScriptedOracle& oracle, BendMask formed) {
    if (formed == oracle.all()) return Finish::kYes;
    Finish best = Finish::kNo;
    for (const CandidateStroke& candidate : oracle.candidates(formed)) {
        if (candidate.answer == StrokeAnswer::kImpossible) continue;
        const Finish after = bruteFinish(oracle, formed | candidate.bends);
        best = std::max(best, candidate.answer == StrokeAnswer::kUndecided ? std::min(after, Finish::kMaybe) : after);
    }
    return best;
}

}  // namespace

TEST_CASE("the bound is consistent on every small lattice") {
    for (std::uint64_t seed = 1; seed <= 300; ++seed) {
        CAPTURE(seed);
        const auto oracle = makeOracle({seed, 1 + seed % 7, 1, 3, 1, 0});
        checkConsistent(*oracle, findCoFoldable(*oracle, 0));
    }
}

TEST_CASE("the bound is consistent when nothing is known of the lines") {
    for (std::uint64_t seed = 1; seed <= 100; ++seed) {
        CAPTURE(seed);
        const auto oracle = makeOracle({seed, 2 + seed % 5, 1, 3, 1, 0});
        CoFoldable co_foldable = findCoFoldable(*oracle, 0);
        for (BendMask& with : co_foldable.with) with = oracle->all();
        for (int& largest : co_foldable.largest) largest = static_cast<int>(oracle->bendCount());
        checkConsistent(*oracle, co_foldable);
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
    const CoFoldable co_foldable = findCoFoldable(oracle, 0);
    CHECK(co_foldable.with[0] == 0b0111);
    CHECK(co_foldable.largest == std::vector<int>{3, 3, 3, 1});
    CHECK(Bounds(oracle, co_foldable).quickTime_ms(0b1111) == 900 + 700);
    const CoFoldable after_two = findCoFoldable(oracle, 0b0011);
    CHECK(after_two.never());
    CHECK(Bounds(oracle, after_two).quickTime_ms(0b1100) == 1600);
}

TEST_CASE("a step needs both of its bends to say that they may join") {
    ScriptedOracle oracle(14);  // too many to survey
    oracle.script_may_share_stroke = [](std::size_t b) { return b == 0 ? BendMask{0b11} : BendMask{1} << b; };
    const CoFoldable co_foldable = findCoFoldable(oracle, 0);
    CHECK(co_foldable.never());
    CHECK(co_foldable.mayFoldTogether(0b1));
    CHECK_FALSE(co_foldable.mayFoldTogether(0b11));
    CHECK(oracle.lines_asked == 0);
}

TEST_CASE("levels from the finished part agree with recursion") {
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        CAPTURE(seed);
        const auto oracle =
            makeOracle({seed, 1 + seed % 6, 2, static_cast<int>(seed % 14), static_cast<int>(seed % 4), 0});
        const SearchOptions options;
        WorkBudget budget(options);
        budget.allow(1000);
        const CoFoldable co_foldable = findCoFoldable(*oracle, 0);
        StateTable table(*oracle, co_foldable, budget);
        BackwardReach backward(table);
        backward.advance(seed % 7);  // some levels
        for (BendMask formed = 0; formed <= oracle->all(); ++formed) {
            if (const std::optional<Finish> known = backward.known(formed))
                REQUIRE(*known == bruteFinish(*oracle, formed));
        }
        backward.advance(1000);  // all
        for (BendMask formed = 0; formed <= oracle->all(); ++formed) {
            REQUIRE(backward.known(formed) == std::optional(bruteFinish(*oracle, formed)));
        }
        Reach possible(table, backward, Reach::With::kPossible);
        Reach undecided(table, backward, Reach::With::kUndecided);
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
    oracle.script_answer = [](BendMask, const Stroke& stroke) {
        return std::popcount(stroke.bends) == 2 ? StrokeAnswer::kPossible : StrokeAnswer::kImpossible;
    };
    const SearchOptions options;
    WorkBudget budget(options);
    budget.allow(1000);
    const CoFoldable co_foldable = findCoFoldable(oracle, 0);
    StateTable table(oracle, co_foldable, budget);
    BackwardReach backward(table);
    backward.advance(4);
    CHECK(backward.known(0b0111) == Finish::kNo);
    CHECK_FALSE(backward.known(0b0011).has_value());
    backward.advance(6);
    CHECK(backward.known(0b0011) == Finish::kYes);
    CHECK(backward.known(0b0101) == Finish::kNo);
    CHECK(backward.known(0) == Finish::kYes);
}

TEST_CASE("reach forwards alone agrees with recursion") {
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        CAPTURE(seed);
        const auto oracle =
            makeOracle({seed, 1 + seed % 6, 2, static_cast<int>(seed % 14), static_cast<int>(seed % 4), 0});
        const SearchOptions options;
        WorkBudget budget(options);
        budget.allow(1000);
        const CoFoldable co_foldable = findCoFoldable(*oracle, 0);
        StateTable table(*oracle, co_foldable, budget);
        BackwardReach backward(table);
        Reach possible(table, backward, Reach::With::kPossible);
        Reach undecided(table, backward, Reach::With::kUndecided);
        for (BendMask formed = 0; formed <= oracle->all(); ++formed) {
            REQUIRE(possible.finishes(formed) == (bruteFinish(*oracle, formed) == Finish::kYes));
            REQUIRE(undecided.finishes(formed) == (bruteFinish(*oracle, formed) != Finish::kNo));
        }
    }
}
