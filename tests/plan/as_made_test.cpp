// SPDX-License-Identifier: GPL-3.0-or-later
// The rest of a part whose folds came out otherwise than drawn is planned as it is, and replayed as it is.
#include <catch2/catch.hpp>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/part/edges/leg_end.h>
#include <tinwright/part/made/as_made.h>
#include <tinwright/part/made/put_right.h>
#include <tinwright/verify/replay/verify.h>

#include "plan_support.h"
#include "random_states.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

MadeBend sized(const Part& part, const std::string& bend, double outside_mm) {
    return {bendNamed(part, bend), outside_mm, std::nullopt};
}

/// Plans what is still flat, and replays every plan.
BrakeResult planRest(const Part& part, const Shop& shop, std::size_t brake, BendMask formed) {
    PlanOptions options;
    options.formed = formed;
    options.explain = false;
    BrakeResult result = planOnBrake(part, shop, brake, options);
    for (const Plan& plan : result.plans) {
        for (const ReplayFinding& finding : verifyPlan(part, shop, result.brake, plan, formed))
            FAIL_CHECK("plan " << plan.rank << ", fold " << finding.fold << ": " << finding.words);
    }
    return result;
}

const char* const kChannel = R"({"format": "tinwright-part/1", "units": "mm", "name": "channel",
  "sheet": {"material": "mild-steel", "thickness": 1.5}, "allowance": {"rule": "k-factor", "k": 0.44},
  "inside_radius": 1, "measured": "outside", "base": {"name": "web", "width": 200, "depth": 60},
  "flanges": [{"name": "front", "on": "web.front", "length": 36}, {"name": "back", "on": "web.back", "length": 36}]})";

}  // namespace

TEST_CASE("A channel whose first leg came out short is planned with the wider web that it has") {
    const Part drawn = partFrom(kChannel);
    const Part now = asMade(drawn, {sized(drawn, "front", 35.2)}, 0).value();
    const Shop& shop = shippedShop();
    const std::size_t brake = brakeNamed(shop, "L");
    const BendMask formed = bit(bendNamed(drawn, "front"));
    const BrakeResult result = planRest(now, shop, brake, formed);
    REQUIRE(result.verdict == Verdict::kFeasible);
    // The sight line of the other leg is where it was: its line has not moved.
    CHECK(result.plans.front().folds.front().sight_mm ==
          Approx(planRest(drawn, shop, brake, formed).plans.front().folds.front().sight_mm));
}

// By hand: the web is 60.8 outside with front 0.8 short; with the line of back 0.8 nearer to the web it is 60 again,
// and back measures 36.8.
TEST_CASE("The line that puts the web right is planned with it moved, and gives the size that is drawn") {
    const Part drawn = partFrom(kChannel);
    const BendMask formed = bit(bendNamed(drawn, "front"));
    const Part now = asMade(drawn, {sized(drawn, "front", 35.2)}, formed).value();
    const std::vector<SizeChange> changes = sizeChanges(drawn, now);
    const std::vector<LineMove> moves = linesToMove(drawn, now, changes, formed);
    REQUIRE(moves.size() == 1);
    CHECK(drawn.bend(moves[0].bend).name == "back");
    CHECK(moves[0].toward_child_mm == Approx(-0.8));
    REQUIRE(moves[0].left.size() == 2);
    for (const SizeChange& change : moves[0].left) {
        const std::string name = drawn.panel(change.now.panel).name;
        CHECK(change.now.outside_mm == Approx(name == "front" ? 35.2 : 36.8));
        CHECK(name != "web");
    }
    const Shop& shop = shippedShop();
    CHECK(planRest(moves[0].part, shop, brakeNamed(shop, "L"), formed).verdict == Verdict::kFeasible);
}

TEST_CASE("A tray in every state, made a little otherwise: the replay agrees with every plan") {
    const Part drawn = partFrom(trayRecipe(120, 90, 25, 0));
    const Shop& shop = shippedShop();
    random_states::Dice dice(11);
    int planned = 0;
    for (int round = 0; round < 8; ++round) {
        std::vector<MadeBend> made;
        for (std::size_t i = 0; i < drawn.bends.size(); ++i) {
            if (!dice.chance(0.5)) continue;
            made.push_back(
                {idAt<BendId>(i), 25 + dice.between(-0.6, 0.6), Angle::degrees(90 + dice.between(-1.5, 1.5))});
        }
        if (made.size() == drawn.bends.size()) made.pop_back();
        const Result<Part> now = asMade(drawn, made, 0);
        REQUIRE(now.ok());
        INFO("round " << round);
        BendMask formed = 0;
        for (const MadeBend& bend : made) formed |= bit(bend.bend);
        const BrakeResult result = planRest(now.value(), shop, brakeNamed(shop, "B"), formed);
        planned += result.plans.empty() ? 0 : 1;
    }
    CHECK(planned > 0);
}

TEST_CASE("Random parts, made otherwise by whatever was measured: taken or refused, and what is taken is sheet") {
    int taken = 0, said_no = 0;
    for (std::uint64_t seed = 1; seed <= 300; ++seed) {
        INFO("seed " << seed);
        const Part drawn = random_states::randomCase(seed).part;
        random_states::Dice dice(seed);
        std::vector<MadeBend> made;
        for (std::size_t i = 0; i < drawn.bends.size(); ++i) {
            if (dice.chance(0.3)) continue;
            MadeBend bend{idAt<BendId>(i), std::nullopt, std::nullopt};
            const auto end = legEnd(drawn, bend.bend, Side::kChild, allFormed(drawn));
            const double drawn_mm = end ? legSize_mm(drawn, bend.bend, *end, Face::kOutside) : 20;
            const double off_mm = dice.chance(0.2) ? 60 : 2;
            if (dice.chance(0.7)) bend.outside_mm = drawn_mm + dice.between(-off_mm, off_mm);
            if (dice.chance(0.3)) bend.angle = Angle::degrees(dice.between(-5, 185));
            made.push_back(bend);
        }
        const Result<Part> now = asMade(drawn, made, 0);
        now.ok() ? ++taken : ++said_no;
        if (!now) continue;
        CHECK(now.value().bends.size() == drawn.bends.size());
        for (const Panel& panel : now.value().panels) CHECK(isValid(panel.region));
        for (const Bend& bend : now.value().bends) {
            CHECK_FALSE(bend.spans.empty());
            CHECK(bend.allowance_mm > 0);
        }
        static_cast<void>(linesToMove(drawn, now.value(), sizeChanges(drawn, now.value()), 0));
    }
    CHECK(taken > 30);
    CHECK(said_no > 30);
}
