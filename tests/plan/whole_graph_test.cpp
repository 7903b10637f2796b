// SPDX-License-Identifier: GPL-3.0-or-later
// The whole graph of states and what may stand there, on real geometry. The bound of what is left: no step takes less
// than the bound falls by, and no order less than the bound. The best order of the search: the least over all orders,
// found backwards over the graph.
#include <algorithm>
#include <map>
#include <set>

#include <Eigen/Geometry>
#include <catch2/catch.hpp>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/io/recipe/recipe_io.h>
#include <tinwright/sequence/search/search.h>

#include "../bench/families.h"
#include "../one_vee.h"
#include "plan_support.h"
#include "random_states.h"
#include "search/bound.h"
#include "shop/shop_oracle.h"
#include "states/co_foldable.h"

namespace tinwright::test {

namespace {

struct Tally {
    std::size_t steps = 0;
    std::size_t sharper = 0;  // steps where it is more than what each step takes by itself
    std::size_t without = 0;  // states from which the bound knows no way
    std::size_t exact = 0;    // parts whose best order takes just what the bound says
    std::size_t priced = 0;
    std::size_t stations = 0;  // set-ups side by side that were shared
    std::size_t searched = 0;  // parts whose best order the search proves, the same as all orders give
};

constexpr std::size_t kMostNodes = 20'000;

using Node = std::pair<BendMask, MachineState>;

struct Step {
    std::int64_t time_ms = 0;
    bool tight = false;
    Node to;
};

SearchOptions bestAlone() {
    SearchOptions options;
    options.plans = 1;
    options.max_counted_states = 0;
    return options;
}

/// All states with what may stand there, forwards; then least times backwards.
class WholeGraph {
public:
    WholeGraph(const Part& part, const Shop& shop, const BrakeInSetup& brake, Tally& tally)
        : oracle_(part, shop, brake),
          found_(searchOrders(oracle_, 0, bestAlone())),  // from here on the oracle shares what it shared last
          co_foldable_(search::findCoFoldable(oracle_, 0)),
          quick_(oracle_, co_foldable_),
          sharp_(oracle_, co_foldable_),
          by_count_(part.bends.size() + 1),
          tally_(tally) {
        REQUIRE(sharp_.sharpen());
        for (const Setup& setup : oracle_.prices().shared())
            tally_.stations += brake->isPress() && setup.pieces.size() > 3 ? 1 : 0;
    }

    void check() {
        by_count_[0].insert({0, kNothingSetUp});
        for (std::size_t count = 0; count + 1 < by_count_.size(); ++count) {
            for (const Node& from : by_count_[count]) {
                stepsFrom(from);
                if (steps_.size() > kMostNodes) return;
            }
        }
        for (const Node& last : by_count_.back()) least_ms_[last] = comfortable_ms_[last] = 0;
        for (std::size_t count = by_count_.size() - 1; count-- > 0;) {
            for (const Node& from : by_count_[count]) leastFrom(from);
        }
        compareBest();
    }

private:
    void stepsFrom(const Node& from) {
        const search::Remaining here = sharp_.of(from.first, from.second);
        const search::Remaining plain = quick_.of(from.first, from.second);
        REQUIRE(here.time_ms >= plain.time_ms);
        for (const CandidateStroke& candidate : oracle_.candidates(from.first)) {
            undecided_ = undecided_ || candidate.answer == StrokeAnswer::kUndecided;
            if (candidate.answer != StrokeAnswer::kPossible) continue;
            for (const StepCost& cost : oracle_.costs(from.first, from.second, candidate, kNever_ms)) {
                const Node to{from.first | candidate.bends, cost.after};
                checkStep(from, candidate, cost, sharp_.of(to.first, to.second));
                steps_[from].push_back({cost.time_ms, cost.tight, to});
                by_count_[static_cast<std::size_t>(std::popcount(to.first))].insert(to);
                ++tally_.steps;
                tally_.sharper += here.time_ms > plain.time_ms ? 1 : 0;
            }
        }
    }

    /// The bound falls by no more than the step takes.
    void checkStep(const Node& from, const CandidateStroke& candidate, const StepCost& cost,
                   const search::Remaining& after) {
        INFO("state " << from.first << " stands " << from.second << " folds " << candidate.bends << " hold "
                      << static_cast<int>(candidate.hold));
        if (!after.finishes) return;
        const search::Remaining here = sharp_.of(from.first, from.second);
        const search::Remaining by = sharp_.by(from.first, from.second, candidate);
        REQUIRE(here.finishes);
        REQUIRE(by.finishes);
        REQUIRE(here.time_ms <= cost.time_ms + after.time_ms);
        REQUIRE(here.pieces <= cost.pieces + after.pieces);
        REQUIRE(by.time_ms <= cost.time_ms + after.time_ms);
        REQUIRE(by.pieces <= cost.pieces + after.pieces);
    }

    void leastFrom(const Node& from) {
        std::int64_t least = kNever_ms;
        std::int64_t comfortable = kNever_ms;
        for (const Step& step : steps_[from]) {
            least = std::min(least, step.time_ms + least_ms_.at(step.to));
            if (!step.tight) comfortable = std::min(comfortable, step.time_ms + comfortable_ms_.at(step.to));
        }
        least_ms_[from] = least;
        comfortable_ms_[from] = comfortable;
        const search::Remaining bound = sharp_.of(from.first, from.second);
        tally_.without += bound.finishes ? 0 : 1;
        if (least < kNever_ms) REQUIRE(bound.finishes);
        if (least < kNever_ms) REQUIRE(bound.time_ms <= least);
    }

    /// The search against all orders.
    void compareBest() {
        const Node start{0, kNothingSetUp};
        const bool tight = comfortable_ms_.at(start) >= kNever_ms;
        const std::int64_t best_ms = tight ? least_ms_.at(start) : comfortable_ms_.at(start);
        if (!undecided_) CHECK((found_.end == SearchEnd::kFound) == (best_ms < kNever_ms));
        if (best_ms >= kNever_ms) return;
        ++tally_.priced;
        tally_.exact += sharp_.of(0, kNothingSetUp).time_ms == best_ms ? 1 : 0;
        if (!found_.proven_best) return;
        ++tally_.searched;
        CHECK(found_.orders.front().tight == tight);
        CHECK(found_.orders.front().time_ms == best_ms);
    }

    ShopOracle oracle_;
    SearchResult found_;
    search::CoFoldable co_foldable_;
    search::Bounds quick_;
    search::Bounds sharp_;
    std::vector<std::set<Node>> by_count_;  // by the number of bends formed
    std::map<Node, std::vector<Step>> steps_;
    std::map<Node, std::int64_t> least_ms_;        // over all orders
    std::map<Node, std::int64_t> comfortable_ms_;  // over those without a tight step
    bool undecided_ = false;
    Tally& tally_;
};

void check(const Part& part, const Shop& shop, const BrakeInSetup& brake, Tally& tally) {
    WholeGraph(part, shop, brake, tally).check();
}

}  // namespace

TEST_CASE("whole graph: no step of random parts takes less than the bound falls by, and the search finds the least") {
    Tally tally;
    for (std::uint64_t seed = 5000; seed < 5300; ++seed) {
        CAPTURE(seed);
        const random_states::Case one = random_states::randomCase(seed);
        check(one.part, one.shop, one.brake(), tally);
    }
    INFO(tally.steps << " steps, " << tally.sharper << " sharper, " << tally.without << " without a way, "
                     << tally.exact << " of " << tally.priced << " exact");
    CHECK(tally.steps > 1000);
    CHECK(tally.sharper > tally.steps / 4);
    CHECK(tally.without > 10);
    CHECK(tally.exact > tally.priced / 4);
    CHECK(tally.searched > tally.priced / 2);
}

// Gauging takes more in some states than in others, which the bound knows nothing of.
TEST_CASE("whole graph: the same of random parts on press brakes with a back gauge") {
    Tally tally;
    for (std::uint64_t seed = 7000; seed < 7150; ++seed) {
        CAPTURE(seed);
        random_states::Case one = random_states::randomPressCase(seed);
        one.shop.brakes[0].press().gauge = BackGauge{3, 400, 25, 12, -30, 120};
        check(one.part, one.shop, one.brake(), tally);
    }
    INFO(tally.steps << " steps, " << tally.exact << " of " << tally.priced << " exact, " << tally.searched
                     << " searched");
    CHECK(tally.steps > 300);
    CHECK(tally.priced > 20);
    CHECK(tally.searched > tally.priced / 2);
}

TEST_CASE("whole graph: the same of boxes, combs and ladders of up to 8 bends on the shipped brakes") {
    Tally tally;
    std::size_t boxes = 0;
    const Shop& shop = shippedShop();
    for (const auto& [family, bends] : {std::pair{"comb", 4}, {"comb", 6}, {"ladder", 5}, {"box", 8}}) {
        for (const Brake& brake : shop.brakes) {
            CAPTURE(family, bends, brake.name);
            const std::size_t before = tally.searched;
            const Part part = bench::familyPart(family, static_cast<std::size_t>(bends));
            check(part, shop, test::inUse(part, brake), tally);
            boxes += std::string(family) == "box" ? tally.searched - before : 0;
        }
    }
    CHECK(boxes > 0);
    CHECK(tally.steps > 1000);
    CHECK(tally.searched > 8);
}

// Hems take more than a fold, and leave the part lying otherwise than it was folded.
TEST_CASE("whole graph: the same of trays with hemmed rims, and of random parts with a hem") {
    Tally tally;
    const Result<Part> tray = readPartFile(TINWRIGHT_SOURCE_DIR "/examples/cooling-tray/part.json");
    REQUIRE(tray);
    for (Brake brake : shippedShop().brakes) {
        brake.leaf().hem_thickness_mm = 2;
        CAPTURE(brake.name);
        check(tray.value(), shippedShop(), test::inUse(tray.value(), brake), tally);
    }
    CHECK(tally.searched > 1);
    for (std::uint64_t seed = 5300; seed < 5500; ++seed) {
        CAPTURE(seed);
        random_states::Case one = random_states::randomCase(seed);
        random_states::Dice dice(seed);
        if (!random_states::makeHem(one.part, dice)) continue;
        Brake& brake = one.shop.brakes[0];
        random_states::letCloseHems(brake);
        check(one.part, one.shop, one.brake(), tally);
    }
    CHECK(tally.steps > 300);
}

// Where set-ups may stand side by side, and do.
TEST_CASE("whole graph: the same of random parts on press brakes, with stations") {
    Tally tally;
    for (std::uint64_t seed = 7000; seed < 7080; ++seed) {
        CAPTURE(seed);
        const random_states::Case one = random_states::randomPressCase(seed);
        check(one.part, one.shop, one.brake(), tally);
    }
    INFO(tally.steps << " steps, " << tally.sharper << " sharper, " << tally.exact << " of " << tally.priced
                     << " exact, " << tally.searched << " searched, " << tally.stations << " with stations");
    CHECK(tally.steps > 500);
    CHECK(tally.searched > tally.priced / 2);
    CHECK(tally.stations > 5);
}

// As drawings have them: what is parallel on paper is so to a few millionths in the file.
TEST_CASE("whole graph: the same of bends that are not quite parallel") {
    Tally tally;
    const Shop& shop = shippedShop();
    for (const double off_rad : {3e-6, 9e-6, 4e-4, 6e-4}) {
        Part part = bench::familyPart("comb", 4);
        for (const std::size_t i : {std::size_t{1}, std::size_t{2}}) {
            const Eigen::Rotation2Dd off(i == 1 ? off_rad : -off_rad);
            part.bends[i].along = off * part.bends[i].along;
            part.bends[i].toward_child = off * part.bends[i].toward_child;
        }
        for (const Brake& brake : shop.brakes) {
            CAPTURE(off_rad, brake.name);
            check(part, shop, test::inUse(part, brake), tally);
        }
    }
    CHECK(tally.steps > 80);
}

TEST_CASE("whole graph: the same of trays, with bends of one line folded together or apart") {
    Tally tally;
    const Shop& shop = shippedShop();
    for (const double lip_mm : {0.0, 12.0}) {
        const Part part = partFrom(trayRecipe(160, 120, 40, lip_mm));
        for (const Brake& brake : shop.brakes) check(part, shop, test::inUse(part, brake), tally);
    }
    CHECK(tally.steps > 300);
}

}  // namespace tinwright::test
