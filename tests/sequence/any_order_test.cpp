// SPDX-License-Identifier: GPL-3.0-or-later
// Runs of steps in any order: every order that they admit is possible and takes as long.
#include <catch2/catch.hpp>

#include <algorithm>
#include <functional>
#include <numeric>

#include <tinwright/sequence/search/search.h>

#include "proofs/any_order.h"
#include "random_oracle.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

struct Walked {
    bool possible = true;
    bool tight = false;
    std::int64_t time_ms = 0;
};

Walked walk(ScriptedOracle& oracle, const std::vector<CandidateStroke>& steps) {
    Walked result;
    BendMask formed = 0;
    MachineState machine_state = kNothingSetUp;
    for (const CandidateStroke& step : steps) {
        const std::vector<CandidateStroke>& candidates = oracle.candidates(formed);
        const auto candidate =
            std::find_if(candidates.begin(), candidates.end(), [&](const CandidateStroke& one) { return one == step; });
        if (candidate == candidates.end() || candidate->answer != StrokeAnswer::kPossible) return {false, false, 0};
        const StepCost cost = oracle.cost(formed, machine_state, *candidate);
        result.time_ms += cost.time_ms;
        result.tight = result.tight || cost.tight;
        machine_state = cost.after;
        formed |= step.bends;
    }
    return result;
}

// Every order that the runs admit.
void eachOrder(const std::vector<CandidateStroke>& steps, const std::vector<int>& runs,
               const std::function<void(const std::vector<CandidateStroke>&)>& visit) {
    const auto from = [&](const auto& self, std::size_t run, std::size_t at,
                          std::vector<CandidateStroke> so_far) -> void {
        if (run == runs.size()) return visit(so_far);
        std::vector<std::size_t> order(static_cast<std::size_t>(runs[run]));
        std::iota(order.begin(), order.end(), at);
        do {
            std::vector<CandidateStroke> next = so_far;
            for (const std::size_t i : order) next.push_back(steps[i]);
            self(self, run + 1, at + order.size(), std::move(next));
        } while (std::next_permutation(order.begin(), order.end()));
    };
    from(from, 0, 0, {});
}

}  // namespace

TEST_CASE("every order that runs admit is possible and takes as long") {
    int orders = 0;
    int with_runs = 0;
    for (std::uint64_t seed = 1; seed <= 600; ++seed) {
        CAPTURE(seed);
        const auto oracle = makeOracle({seed, 2 + seed % 5, 1, static_cast<int>(seed % 6), 0, 0});
        SearchOptions options;
        options.plans = 2;
        const SearchResult result = searchOrders(*oracle, 0, options);
        for (const Order& order : result.orders) {
            const std::vector<int> runs = anyOrderRuns(*oracle, 0, order);
            if (runs.empty()) continue;
            REQUIRE(std::accumulate(runs.begin(), runs.end(), 0) == static_cast<int>(order.steps.size()));
            with_runs += runs.size() < order.steps.size() ? 1 : 0;
            std::vector<CandidateStroke> steps;
            for (const OrderStep& step : order.steps) steps.push_back(step.stroke);
            eachOrder(steps, runs, [&](const std::vector<CandidateStroke>& one) {
                const Walked walked = walk(*oracle, one);
                REQUIRE(walked.possible);
                REQUIRE(walked.time_ms == order.time_ms);
                REQUIRE((order.tight || !walked.tight));
                ++orders;
            });
        }
    }
    CHECK(with_runs > 100);
    CHECK(orders > 700);
}

TEST_CASE("bends that nothing keeps in order are one run") {
    ScriptedOracle oracle(5);
    oracle.never_coincide = true;
    SearchOptions options;
    options.plans = 1;
    const SearchResult result = searchOrders(oracle, 0, options);
    CHECK(anyOrderRuns(oracle, 0, result.orders.front()) == std::vector<int>{5});
    CHECK(anyOrderRuns(oracle, 0, result.orders.front(), 3) == std::vector<int>{3, 2});
}
