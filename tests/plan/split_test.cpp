// SPDX-License-Identifier: GPL-3.0-or-later
// Parts folded on two brakes: planned, replayed by the independent verifier, and priced against every order.
#include <algorithm>
#include <map>

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/forming/metal/vee_choice.h>
#include <tinwright/io/shop/shop_io.h>
#include <tinwright/sequence/plan/split_plan.h>
#include <tinwright/verify/replay/verify.h>

#include "../one_vee.h"
#include "plan_support.h"
#include "random_states.h"
#include "shop/split_oracle.h"

namespace tinwright::test {

namespace {

// A magnetic folder 1250 long, and a press brake 1500 long.
Shop twoBrakes(const Part& part) {
    const Result<Shop> read = readShop(std::string(TINWRIGHT_SOURCE_DIR) + "/tests/plan/data/folder-and-press.json");
    INFO((read ? std::string() : toText(read.issues().front())));
    REQUIRE(read);
    Shop shop = read.value();
    shop.brakes[1] = test::onlyVee(shop.brakes[1], *test::inUse(part, shop.brakes[1]).vee());
    return shop;
}

// Its edge is longer than the folder; its hook is a U deeper than the press brake's punches let in.
Part shelf(double length_mm = 1300) {
    return partFrom(fmt::format(
        R"({{"format":"tinwright-part/1","units":"mm","name":"shelf with a deep hook","sheet":{{"material":"mild-steel","thickness":1.5}},)"
        R"("allowance":{{"rule":"k-factor","k":0.44}},"inside_radius":1.6,"measured":"outside",)"
        R"("base":{{"name":"shelf","width":{},"depth":100}},"flanges":[{{"name":"edge","on":"shelf.front","length":25}},)"
        R"({{"name":"web","on":"shelf.back","length":60,"from_left":{},"width":200}},{{"name":"leg","on":"web.far","length":120}}]}})",
        length_mm, 0.5 * length_mm - 100));
}

std::vector<BrakeInSetup> brakesOf(const SplitPlan& split) {
    std::vector<BrakeInSetup> brakes;
    for (const std::size_t brake : split.brake_of_fold) brakes.push_back(split.setupOf(brake));
    return brakes;
}

std::string wordsOf(const std::vector<ReplayFinding>& findings) {
    std::string words;
    for (const ReplayFinding& finding : findings) words += fmt::format("fold {}: {}\n", finding.fold, finding.words);
    return words;
}

// Random brakes name them all alike; the replay finds a face by its name.
void nameFaces(Brake& brake) {
    std::vector<LeafFace>& faces = brake.leaf().leaf_faces;
    for (std::size_t i = 0; i < faces.size(); ++i) faces[i].name = fmt::format("face {}", i);
}

// The least time over all orders, forwards over states and what stands there.
std::int64_t leastOverAll_ms(SplitOracle& oracle, BendMask all) {
    using Node = std::pair<BendMask, MachineState>;
    std::map<Node, std::int64_t> comfortable{{{0, kNothingSetUp}, 0}};
    std::int64_t best = kNever_ms;
    for (auto at = comfortable.begin(); at != comfortable.end(); ++at) {  // states grow, so what is added comes later
        const auto [formed, machine_state] = at->first;
        if (formed == all) best = std::min(best, at->second);
        for (const CandidateStroke& candidate : oracle.candidates(formed)) {
            if (candidate.answer != StrokeAnswer::kPossible) continue;
            for (const StepCost& cost : oracle.costs(formed, machine_state, candidate, kNever_ms)) {
                if (cost.tight) continue;
                const auto [to, is_new] = comfortable.try_emplace({formed | candidate.bends, cost.after}, kNever_ms);
                to->second = std::min(to->second, at->second + cost.time_ms);
            }
        }
    }
    return best;
}

}  // namespace

TEST_CASE("two brakes: a part that neither makes goes over both, and the replay finds nothing wrong") {
    const Part part = shelf();
    const Shop shop = twoBrakes(part);
    for (std::size_t brake : {0, 1}) CHECK(planOnBrake(part, shop, brake, {}).verdict == Verdict::kInfeasible);
    const std::optional<SplitPlan> split = planOnTwo(part, shop, {0, 1}, test::inUse(part, shop), {});
    REQUIRE(split);
    CHECK(split->brake_of_bend[bendNamed(part, "edge").index()] == 1);
    CHECK(split->times_carried == 1);
    const std::vector<ReplayFinding> findings = verifyPlan(part, shop, brakesOf(*split), split->plan, 0);
    INFO(wordsOf(findings));
    CHECK(findings.empty());
    for (const FoldStep& fold : split->plan.folds) CHECK_FALSE(fold.over_tolerances.looked_at);
}

TEST_CASE("two brakes: the replay finds out when folds are made on the other brake") {
    const Part part = shelf();
    const Shop shop = twoBrakes(part);
    const std::optional<SplitPlan> split = planOnTwo(part, shop, {0, 1}, test::inUse(part, shop), {});
    REQUIRE(split);
    std::vector<BrakeInSetup> swapped;
    for (const std::size_t brake : split->brake_of_fold) swapped.push_back(split->setupOf(1 - brake));
    CHECK_FALSE(verifyPlan(part, shop, swapped, split->plan, 0).empty());
}

TEST_CASE("two brakes: the time has that of carrying the part over") {
    const Part part = shelf();
    Shop shop = twoBrakes(part);
    const long long before_ms = planOnTwo(part, shop, {0, 1}, test::inUse(part, shop), {})->plan.cost_ms;
    shop.times.carry_ms += 50'000;
    const std::optional<SplitPlan> after = planOnTwo(part, shop, {0, 1}, test::inUse(part, shop), {});
    REQUIRE(after);
    CHECK(after->plan.cost_ms == before_ms + 50'000 * static_cast<long long>(after->times_carried));
}

TEST_CASE("two brakes: where one makes the part alone, two take no longer") {
    const Part part = shelf(900);  // as long as both take
    Shop shop = twoBrakes(part);
    const BrakeResult folder = planOnBrake(part, shop, 0, {});
    REQUIRE(folder.verdict == Verdict::kFeasible);
    const std::optional<SplitPlan> split = planOnTwo(part, shop, {0, 1}, test::inUse(part, shop), {});
    REQUIRE(split);
    CHECK(split->proven_best);
    CHECK(split->plan.cost_ms <= folder.plans.front().cost_ms);
}

TEST_CASE("two brakes: radii that are all the brake's own change nothing") {
    for (std::uint64_t seed = 300; seed < 330; ++seed) {
        CAPTURE(seed);
        const random_states::Case one = random_states::randomCase(seed);
        FoldEngine plain(one.part, one.shop, one.brake());
        FoldEngine given(one.part, one.shop, one.brake(), Demand::kPossible,
                         std::vector<double>(one.part.bends.size(), one.brake().inside_radius_mm()));
        random_states::Dice dice(seed);
        for (int i = 0; i < 5; ++i) {
            const random_states::State state = random_states::randomState(one.part, dice);
            const Stroke stroke{bit(state.bend), state.hold};
            CHECK(plain.check(state.formed, stroke).answer == given.check(state.formed, stroke).answer);
        }
    }
}

TEST_CASE("two brakes: random parts over two random brakes take the least of all orders, and are replayed") {
    std::size_t priced = 0;
    std::size_t carried = 0;
    for (std::uint64_t seed = 900; seed < 990; ++seed) {
        CAPTURE(seed);
        const random_states::Case one = random_states::randomCase(seed);
        Shop shop = one.shop;
        shop.brakes.push_back(random_states::randomCase(seed + 10'000).shop.brakes[0]);
        for (Brake& brake : shop.brakes) nameFaces(brake);
        shop.times.carry_ms = 20'000;
        const std::optional<SplitPlan> split = planOnTwo(one.part, shop, {0, 1}, test::inUse(one.part, shop), {});
        if (!split) continue;
        std::vector<ReplayFinding> findings = verifyPlan(one.part, shop, brakesOf(*split), split->plan, 0);
        // Of the plan as a whole: the clearance told is a lower bound, which on skewed parts may be less than what is
        // known to be free.
        std::erase_if(findings, [](const ReplayFinding& finding) {
            return finding.fold == 0 && finding.words.starts_with("a fold is tight");
        });
        INFO(wordsOf(findings));
        CHECK(findings.empty());
        carried += split->times_carried;
        if (!split->proven_best || split->plan.tight || split->plan.spoils.any()) continue;
        ++priced;
        std::array<BendMask, 2> may{};
        std::vector<double> radii;
        for (std::size_t i = 0; i < split->brake_of_bend.size(); ++i) {
            may[split->brake_of_bend[i]] |= bit(idAt<BendId>(i));
            radii.push_back(split->setupOf(split->brake_of_bend[i]).inside_radius_mm());
        }
        SplitOracle oracle(one.part, shop, {{{split->on[0], may[0]}, {split->on[1], may[1]}}}, radii, nullptr);
        CHECK(split->plan.cost_ms == leastOverAll_ms(oracle, may[0] | may[1]));
    }
    CHECK(priced > 10);
    CHECK(carried > 3);
}

}  // namespace tinwright::test
