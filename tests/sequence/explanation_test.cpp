// SPDX-License-Identifier: GPL-3.0-or-later
// Causes and forced orders of random scripted parts against trying everything.
#include <catch2/catch.hpp>

#include <tinwright/sequence/explanation.h>
#include <tinwright/sequence/search.h>

#include "brute_force.h"
#include "random_oracle.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

// Every stroke that a fact means is impossible wherever the fact holds.
void checkTrue(ScriptedOracle& oracle, const ForbiddenStroke& fact) {
    for (BendMask formed = 0; formed <= oracle.all(); ++formed) {
        if (!fact.holdsIn(formed)) continue;
        for (const FoldMove& move : oracle.moves(formed)) {
            if (move.hold == fact.hold && fact.means(move.bends)) REQUIRE(move.answer == FoldAnswer::kImpossible);
        }
    }
}

void checkMinimal(ScriptedOracle& oracle, const CauseFacts& cause) {
    REQUIRE_FALSE(bruteAdmits(oracle, 0, cause.facts));
    REQUIRE(admitsOrder(oracle, 0, cause.facts, 100'000) == false);
    for (std::size_t left_out = 0; left_out < cause.facts.size(); ++left_out) {
        std::vector<ForbiddenStroke> others = cause.facts;
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
    int facts = 0;
    for (std::uint64_t seed = 1; seed <= 900; ++seed) {
        CAPTURE(seed);
        const RandomInstance in{
            seed, 2 + seed % 5, 1 + static_cast<int>(seed / 5 % 2), static_cast<int>(4 + seed % 12), 0, 0};
        const auto oracle = makeOracle(in);
        if (!oracle->script_why) continue;
        const bool feasible = !allOrders(*oracle, 0, false).empty();
        const std::vector<CauseFacts> found = explainNone(*oracle, 0, ExplainOptions{});
        REQUIRE(found.empty() == feasible);
        for (const CauseFacts& cause : found) {
            for (const ForbiddenStroke& fact : cause.facts) checkTrue(*oracle, fact);
            checkMinimal(*oracle, cause);
            facts += static_cast<int>(cause.facts.size());
        }
        causes += static_cast<int>(found.size());
        several += found.size() > 1 ? 1 : 0;
    }
    CHECK(causes > 150);
    CHECK(several > 20);
    CHECK(facts > causes);
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
            for (const ForbiddenStroke& fact : one.facts) checkTrue(*oracle, fact);
            told += one.facts.empty() ? 0 : 1;
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
