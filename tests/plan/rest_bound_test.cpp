// SPDX-License-Identifier: GPL-3.0-or-later
// The bound of what is left, on real geometry: no step of any state, with any set-up that can stand there, takes less than the bound falls by.
// From that it follows that no order takes less than the bound, which is also asked of the least over all orders.
#include <algorithm>
#include <map>
#include <set>

#include <catch2/catch.hpp>

#include <tinwright/sequence/search.h>

#include "../bench/families.h"
#include "bound.h"
#include "joins.h"
#include "leaf_oracle.h"
#include "plan_support.h"
#include "random_states.h"

namespace tinwright::test {

namespace {

struct Tally {
    std::size_t steps = 0;
    std::size_t sharper = 0;     // steps where it is more than what each step takes by itself
    std::size_t without = 0;     // states from which the bound knows no way
    std::size_t exact = 0;       // parts whose best order takes just what the bound says
    std::size_t priced = 0;
};

constexpr std::size_t kMostNodes = 4'000;

/// All states with what may stand there, forwards; then least times backwards.
void check(const Part& part, const Shop& shop, const LeafBrake& brake, Tally& tally) {
    LeafOracle oracle(part, shop, brake);
    SearchOptions quickly;
    quickly.verdict_only = true;
    static_cast<void>(searchOrders(oracle, 0, quickly));  // for what is shared
    const search::Joins joins = search::findJoins(oracle, 0);
    const search::Bounds quick(oracle, joins);
    search::Bounds sharp(oracle, joins);
    REQUIRE(sharp.sharpen());

    using Node = std::pair<BendMask, Standing>;
    std::vector<std::set<Node>> by_count(part.bends.size() + 1);
    by_count[0].insert({0, kNothingStanding});
    std::map<Node, std::vector<std::pair<std::int64_t, Node>>> steps;
    for (std::size_t count = 0; count < part.bends.size(); ++count) {
        for (const Node& from : by_count[count]) {
            const search::Remaining here = sharp.of(from.first, from.second);
            const search::Remaining plain = quick.of(from.first, from.second);
            REQUIRE(here.time_ms >= plain.time_ms);
            for (const FoldMove& move : oracle.moves(from.first)) {
                if (move.answer == FoldAnswer::kImpossible) continue;
                if (move.answer == FoldAnswer::kUndecided) continue;
                const search::Remaining by = sharp.by(from.first, from.second, move);
                for (const StepCost& cost : oracle.costs(from.first, from.second, move, kNever_ms)) {
                    const Node to{from.first | move.bends, cost.after};
                    const search::Remaining after = sharp.of(to.first, to.second);
                    INFO("state " << from.first << " stands " << from.second << " folds " << move.bends << " hold " << int{move.hold});
                    if (after.finishes) {
                        REQUIRE(here.finishes);
                        REQUIRE(by.finishes);
                        REQUIRE(here.time_ms <= cost.time_ms + after.time_ms);
                        REQUIRE(here.pieces <= cost.pieces + after.pieces);
                        REQUIRE(by.time_ms <= cost.time_ms + after.time_ms);
                        REQUIRE(by.pieces <= cost.pieces + after.pieces);
                    }
                    steps[from].emplace_back(cost.time_ms, to);
                    by_count[static_cast<std::size_t>(std::popcount(to.first))].insert(to);
                    ++tally.steps;
                    tally.sharper += here.time_ms > plain.time_ms ? 1 : 0;
                }
            }
            if (steps.size() > kMostNodes) return;
        }
    }
    std::map<Node, std::int64_t> least_ms;
    for (const Node& last : by_count.back()) least_ms[last] = 0;
    for (std::size_t count = part.bends.size(); count-- > 0;) {
        for (const Node& from : by_count[count]) {
            std::int64_t least = kNever_ms;
            for (const auto& [time_ms, to] : steps[from]) least = std::min(least, time_ms + least_ms.at(to));
            least_ms[from] = least;
            const search::Remaining bound = sharp.of(from.first, from.second);
            tally.without += bound.finishes ? 0 : 1;
            if (least < kNever_ms) REQUIRE(bound.finishes);
            if (least < kNever_ms) REQUIRE(bound.time_ms <= least);
        }
    }
    const std::int64_t best_ms = least_ms.at({0, kNothingStanding});
    if (best_ms >= kNever_ms) return;
    ++tally.priced;
    tally.exact += sharp.of(0, kNothingStanding).time_ms == best_ms ? 1 : 0;
}

}  // namespace

TEST_CASE("rest bound: no step of random parts takes less than it falls by") {
    Tally tally;
    for (std::uint64_t seed = 5000; seed < 5300; ++seed) {
        CAPTURE(seed);
        const random_states::Case one = random_states::randomCase(seed);
        check(one.part, one.shop, one.brake(), tally);
    }
    INFO(tally.steps << " steps, " << tally.sharper << " sharper, " << tally.without << " without a way, " << tally.exact << " of " << tally.priced << " exact");
    CHECK(tally.steps > 1000);
    CHECK(tally.sharper > tally.steps / 4);
    CHECK(tally.without > 10);
    CHECK(tally.exact > tally.priced / 4);
}

TEST_CASE("rest bound: nor of boxes, combs and ladders on the shipped brakes") {
    Tally tally;
    const Shop& shop = shippedShop();
    for (const auto& [family, bends] : {std::pair{"comb", 4}, {"comb", 6}, {"ladder", 5}, {"box", 8}}) {
        for (const LeafBrake& brake : shop.brakes) {
            CAPTURE(family, bends, brake.name);
            check(bench::familyPart(family, static_cast<std::size_t>(bends)), shop, brake, tally);
        }
    }
    CHECK(tally.steps > 1000);
}

TEST_CASE("rest bound: nor of trays, with bends of one line folded together or apart") {
    Tally tally;
    const Shop& shop = shippedShop();
    for (const double lip_mm : {0.0, 12.0}) {
        for (const LeafBrake& brake : shop.brakes) check(partFrom(trayRecipe(160, 120, 40, lip_mm)), shop, brake, tally);
    }
    CHECK(tally.steps > 300);
}

}  // namespace tinwright::test
