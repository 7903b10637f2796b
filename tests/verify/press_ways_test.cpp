// SPDX-License-Identifier: GPL-3.0-or-later
// Getting the part into a press brake and out of it.
#include <catch2/catch.hpp>

#include "hand_made_press.h"

using namespace tinwright;
using namespace tinwright::hand_made;
using Catch::Matchers::Contains;

namespace {

Brake onePress() { return pressWith({punch("S", 100), die("V8", 100)}); }
Plan lPlan() { return planOf({pressFold(lPart(), 0, {{ToolId{0}, 0, 100}, {ToolId{1}, 0, 100}})}); }
std::string found(const Plan& plan, const Brake& brake = onePress()) { return textOf(verified(lPart(), brake, plan)); }

// A web with two legs that have lips, all up: bends 0 and 2 the legs, 1 and 3 their lips. The last leg wraps the punch.
Part lippedChannel() {
    Part part = sheetPart(rectangle(0, 0, 100, 118));
    addFlange(part, 0, "near", Vec2(0, 0), Vec2(100, 0), 28);
    const double out = part.bends[0].allowance_mm + 28;
    addFlange(part, 1, "near lip", Vec2(0, -out), Vec2(100, -out), 12);
    addFlange(part, 0, "far", Vec2(100, 118), Vec2(0, 118), 28);
    addFlange(part, 3, "far lip", Vec2(100, 118 + out), Vec2(0, 118 + out), 12);
    return part;
}

}  // namespace

TEST_CASE("press brake: the ram rises no farther than it opens") {
    Plan plan = lPlan();
    plan.folds[0].lift_in_mm = 105;  // 230 less sheet, punch and die: 104
    CHECK_THAT(
        found(plan),
        Contains(
            "way in, told backwards: the ram is to rise until the seats are 231.000 mm apart, it opens to 230.000 mm"));
    plan = lPlan();
    plan.folds[0].lift_out_mm = 112;
    CHECK_THAT(found(plan), Contains("way out: the ram is to rise until") && !Contains("way in"));
    plan.folds[0].lift_out_mm = -1;
    CHECK_THAT(found(plan), Contains("less than nothing"));
}

TEST_CASE("press brake: a part that is not lifted out of the V, or lifted into the punch, is found") {
    Plan plan = lPlan();
    plan.folds[0].way_out = {{ExitMove::Kind::kPartForward, -1, {{0, -400, 0, 0}}}};
    CHECK_THAT(found(plan), Contains("way out: the part meets die V8 on its way") && !Contains("way in"));
    plan.folds[0].way_out = {outOfVee(70)};
    CHECK_THAT(found(plan), Contains("way out: the part meets punch S on its way"));
    plan.folds[0].lift_out_mm = 0;
    plan.folds[0].way_out = {outOfVee()};
    CHECK_THAT(found(plan), Contains("way out: the part meets punch S on its way"));
}

TEST_CASE("press brake: a part comes out once, in front or past an end") {
    Plan plan = lPlan();
    plan.folds[0].way_out = {};
    CHECK_THAT(found(plan), Contains("way out: the part does not come out"));
    plan.folds[0].way_out = {outOfVee(), outOfVee()};
    CHECK_THAT(found(plan), Contains("after the part has left"));
    plan.folds[0].way_out = {{ExitMove::Kind::kPartForward, -1, {{0, 0, 8, 0}, {0, 400, 8, 0}}}};
    CHECK_THAT(found(plan), Contains("comes out at the back"));
    plan.folds[0].way_out = {offLeft()};
    CHECK(found(plan) == "");
}

TEST_CASE("press brake: punches and dies stay where they stand") {
    Plan plan = lPlan();
    plan.folds[0].way_out = {pieceUp(0), outOfVee()};
    plan.folds[0].tools_out = {0};
    CHECK_THAT(found(plan), Contains("punch S stays where it stands"));
    plan.folds[0].way_out = {pieceUp(1), outOfVee()};
    CHECK_THAT(found(plan), Contains("die V8 stays where it stands"));
}

TEST_CASE("press brake: a part that wraps the punch does not come out forward, but slides off the end") {
    const Part part = lippedChannel();
    FoldStep step = pressFold(part, 0, {{ToolId{0}, 0, 100}, {ToolId{1}, 0, 100}}, Side::kParent);
    const Brake brake = pressWith({gooseneck("G", 100), die("V8", 100)});
    step.lift_out_mm = 2;
    step.way_in = step.way_out = {offLeft()};
    const auto text = [&] { return textOf(verified(part, brake, planOf({step}), 0b1110)); };
    CHECK(text() == "");
    step.way_out = {outOfVee(6)};
    CHECK_THAT(text(), Contains("way out: the part meets punch G on its way"));
}

TEST_CASE("press brake: dies and bed have come up when the part leaves") {
    // Lifted by what the die has come up less a millimetre, the strip's outside still catches on the shoulder in front.
    Plan plan = lPlan();
    const auto textFor = [&](double up_mm) {
        plan.folds[0].way_out = {{ExitMove::Kind::kPartForward, -1, {{0, 0, up_mm, 0}, {0, -400, up_mm, 0}}}};
        return found(plan);
    };
    CHECK(textFor(3.5) == "");
    CHECK_THAT(textFor(1.0), Contains("the part meets die V8 on its way"));
}
