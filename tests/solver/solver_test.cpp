// SPDX-License-Identifier: GPL-3.0-or-later
// The order search against clingo, an independent general-purpose solver, on exported constraint problems: same
// verdict, same best cost.
#include <algorithm>
#include <array>
#include <optional>
#include <utility>

#include <catch2/catch.hpp>

#include <tinwright/sequence/proofs/constraint_problem.h>
#include <tinwright/sequence/search/search.h>

#include "../bench/families.h"
#include "../one_vee.h"
#include "clingo.h"
#include "random_oracle.h"
#include "random_states.h"
#include "shop/shop_oracle.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

// Graphs over this are left to the brute-force tests: a solver that has to ground every step of them takes minutes.
constexpr std::size_t kMostArcs = 300;

struct Tally {
    int feasible = 0, infeasible = 0, unanswered = 0, priced = 0;
};

// What the bans say of a state is what the oracle says.
void checkBans(FoldOracle& oracle, const ConstraintProblem& problem, BendMask state) {
    for (std::uint32_t s = 0; s < problem.strokes.size(); ++s) {
        if ((problem.strokes[s].bends & state) != 0) continue;
        bool banned = false;
        for (const ConstraintProblem::Ban& ban : problem.bans) {
            const bool holds = (state & ban.formed) == ban.formed && (state & ban.flat) == 0;
            banned = banned || (holds && std::find(ban.strokes.begin(), ban.strokes.end(), s) != ban.strokes.end());
        }
        bool possible = false;
        for (const CandidateStroke& candidate : oracle.candidates(state)) {
            possible =
                possible || (candidate.bends == problem.strokes[s].bends && candidate.hold == problem.strokes[s].hold &&
                             candidate.answer == StrokeAnswer::kPossible);
        }
        if (possible) REQUIRE_FALSE(banned);
    }
}

void compare(FoldOracle& oracle, Tally& tally) {
    SearchOptions options;
    options.plans = 1;
    options.max_counted_states = 0;
    options.verdict_only = oracle.bendCount() > 10;  // the solver is not asked for the best order of so many
    const SearchResult found = searchOrders(oracle, 0, options);
    const ConstraintProblem problem = compileConstraints(oracle, 0, {70'000, 500});  // with the set-ups that the search
                                                                                     // shares
    REQUIRE(problem.complete);
    const bool feasible = found.end == SearchEnd::kFound;
    const std::optional<bool> admits = clingoAdmits(problem);
    if (admits) CHECK(*admits == feasible);
    ++(!admits ? tally.unanswered : feasible ? tally.feasible : tally.infeasible);
    if (oracle.bendCount() <= 6) {
        for (BendMask state = 0; state < BendMask{1} << oracle.bendCount(); ++state) checkBans(oracle, problem, state);
    }
    REQUIRE((!problem.costs_complete || problem.nodes.empty() != feasible));
    // With undecided folds the best order is not proven best.
    if (!feasible || !found.proven_best || problem.arcs.empty() || problem.arcs.size() > kMostArcs) return;
    const auto best = clingoBest(problem);
    if (!best) return;
    const Order& order = found.orders.front();
    CHECK(*best == std::array<std::int64_t, 6>{order.spoils.surely, order.spoils.maybe, order.tight ? 1 : 0,
                                               order.time_ms, order.larger_behind, order.pieces});
    ++tally.priced;
}

}  // namespace

TEST_CASE("clingo agrees on random parts") {
    Tally tally;
    for (std::uint64_t seed = 0; seed < 120; ++seed) {
        CAPTURE(seed);
        const random_states::Case one = random_states::randomCase(seed);
        ShopOracle oracle(one.part, one.shop, one.brake());
        compare(oracle, tally);
    }
    CHECK(tally.feasible > 15);
    CHECK(tally.infeasible > 40);
    CHECK(tally.unanswered == 0);
    CHECK(tally.priced > 10);
}

TEST_CASE("clingo agrees on random constraint problems of up to 16 bends") {
    Tally tally;
    for (std::uint64_t seed = 1; seed <= 11; ++seed) {
        CAPTURE(seed);
        const std::size_t bends = 6 + seed % 11;
        const auto oracle = makeOracle({seed, bends, 1, static_cast<int>(2 * bends + seed % 20), 0, 0});
        if (!oracle->script_why) continue;
        compare(*oracle, tally);
    }
    CHECK(tally.feasible > 1);
    CHECK(tally.infeasible > 1);
    CHECK(tally.unanswered < 5);
}

TEST_CASE("clingo agrees on ladders and combs") {
    Tally tally;
    const Shop shop = random_states::randomCase(3).shop;
    for (const auto& [family, bends] : {std::pair{"ladder", 4}, {"ladder", 6}, {"comb", 6}, {"box", 8}}) {
        CAPTURE(family, bends);
        const Part part = bench::familyPart(family, static_cast<std::size_t>(bends));
        ShopOracle oracle(part, shop, test::inUse(part, shop.brakes[0]));
        compare(oracle, tally);
    }
    CHECK(tally.feasible + tally.infeasible >= 3);
}
