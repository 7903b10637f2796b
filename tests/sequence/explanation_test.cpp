// SPDX-License-Identifier: GPL-3.0-or-later
// Causes and forced orders of random scripted parts against trying everything.
#include <catch2/catch.hpp>

#include <tinwright/sequence/proofs/explanation.h>
#include <tinwright/sequence/search/search.h>

#include "brute_force.h"
#include "random_oracle.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

// Every stroke that a fact means is impossible wherever the fact holds.
void checkTrue(ScriptedOracle& oracle, const ForbiddenStroke& forbidden) {
    for (BendMask formed = 0; formed <= oracle.all(); ++formed) {
        if (!forbidden.holdsIn(formed)) continue;
        for (const CandidateStroke& candidate : oracle.candidates(formed)) {
            if (candidate.hold == forbidden.hold && forbidden.means(candidate.bends))
                REQUIRE(candidate.answer == StrokeAnswer::kImpossible);
        }
    }
}

void checkMinimal(ScriptedOracle& oracle, const ConflictCause& cause) {
    REQUIRE_FALSE(bruteAdmits(oracle, 0, cause.forbidden_strokes));
    REQUIRE(admitsOrder(oracle, 0, cause.forbidden_strokes, 100'000) == false);
    for (std::size_t left_out = 0; left_out < cause.forbidden_strokes.size(); ++left_out) {
        std::vector<ForbiddenStroke> others = cause.forbidden_strokes;
        others.erase(others.begin() + static_cast<std::ptrdiff_t>(left_out));
        REQUIRE(bruteAdmits(oracle, 0, others));
    }
}

bool mayComeBefore(const std::vector<BruteOrder>& orders, std::size_t early, std::size_t late) {
    for (const BruteOrder& order : orders) {
        BendMask formed = 0;
        for (const auto& [bends, hold] : order.sequence) {
            if ((bends >> late & 1) != 0 && (formed >> early & 1) != 0) return true;
            formed |= bends;
        }
    }
    return false;
}

}  // namespace

TEST_CASE("causes exclude every order, and no fact of one can be left out") {
    int causes = 0;
    int several = 0;
    int forbidden_strokes = 0;
    for (std::uint64_t seed = 1; seed <= 900; ++seed) {
        CAPTURE(seed);
        const RandomInstance in{
            seed, 2 + seed % 5, 1 + static_cast<int>(seed / 5 % 2), static_cast<int>(4 + seed % 12), 0, 0};
        const auto oracle = makeOracle(in);
        if (!oracle->script_why) continue;
        const bool feasible = !allOrders(*oracle, 0, false).empty();
        const std::vector<ConflictCause> found = explainNone(*oracle, 0, ExplainOptions{});
        REQUIRE(found.empty() == feasible);
        for (const ConflictCause& cause : found) {
            for (const ForbiddenStroke& forbidden : cause.forbidden_strokes) checkTrue(*oracle, forbidden);
            checkMinimal(*oracle, cause);
            forbidden_strokes += static_cast<int>(cause.forbidden_strokes.size());
        }
        causes += static_cast<int>(found.size());
        several += found.size() > 1 ? 1 : 0;
    }
    CHECK(causes > 150);
    CHECK(several > 20);
    CHECK(forbidden_strokes > causes);
}

TEST_CASE("what must come first is what no order does otherwise") {
    int forced = 0;
    int told = 0;
    for (std::uint64_t seed = 1; seed <= 500; ++seed) {
        CAPTURE(seed);
        const RandomInstance in{
            seed, 2 + seed % 4, 1 + static_cast<int>(seed / 5 % 2), static_cast<int>(2 + seed % 8), 0, 0};
        const auto oracle = makeOracle(in);
        const std::vector<BruteOrder> orders = allOrders(*oracle, 0, false);
        if (orders.empty()) continue;
        std::vector<BendMask> known;
        for (const auto& [bends, hold] : orders.front().sequence) known.push_back(bends);
        const Precedences found = forcedPrecedences(*oracle, 0, {known}, PrecedenceOptions{});
        REQUIRE(found.all_pairs);
        std::vector<std::vector<bool>> before(in.bends, std::vector<bool>(in.bends, false));
        for (const Precedence& one : found.forced) {
            before[one.first.index()][one.then.index()] = true;
            for (const ForbiddenStroke& forbidden : one.forbidden_strokes) checkTrue(*oracle, forbidden);
            told += one.forbidden_strokes.empty() ? 0 : 1;
        }
        for (std::size_t m = 0; m < in.bends; ++m) {
            for (std::size_t a = 0; a < in.bends; ++a) {
                for (std::size_t b = 0; b < in.bends; ++b)
                    before[a][b] = before[a][b] || (before[a][m] && before[m][b]);
            }
        }
        for (std::size_t a = 0; a < in.bends; ++a) {
            for (std::size_t b = 0; b < in.bends; ++b) {
                if (a != b) REQUIRE(before[a][b] == !mayComeBefore(orders, b, a));
            }
        }
        forced += static_cast<int>(found.forced.size());
    }
    CHECK(forced > 100);
    CHECK(told > 50);
}
