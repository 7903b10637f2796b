// SPDX-License-Identifier: GPL-3.0-or-later
// Getting pieces and part in and out.
#include <catch2/catch.hpp>

#include "hand_made.h"

using namespace tinwright;
using namespace tinwright::hand_made;
using Catch::Matchers::Contains;

namespace {

// Walls 40 high with inward lips of 10 at both ends: bends 0 left, 1 left lip, 2 right, 3 right lip, 4 front.
Part lippedTray() {
    Part part = sheetPart(rectangle(0, 0, 100, 60));
    addFlange(part, 0, "left", Vec2(0, 60), Vec2(0, 0), 40);
    const double out = part.bends[0].allowance_mm + 40;
    addFlange(part, 1, "left lip", Vec2(-out, 60), Vec2(-out, 0), 10);
    addFlange(part, 0, "right", Vec2(100, 0), Vec2(100, 60), 40);
    addFlange(part, 3, "right lip", Vec2(100 + out, 0), Vec2(100 + out, 60), 10);
    addFlange(part, 0, "front", Vec2(0, 0), Vec2(100, 0), 30);
    return part;
}
constexpr BendMask kLipped = 0b01111;

ExitMove alongThenUp(int piece, double x_mm) {
    return {ExitMove::Kind::kPieceAlong, piece, {{x_mm, 0, 0, 0}, {x_mm, 0, 120, 0}}};
}

// Outer pieces under the lips, a middle one that comes out first.
Plan threePieces(const Part& part) {
    FoldStep step = foldOf(part, 4, {{ToolId{0}, 0.5, 33.5}, {ToolId{0}, 33.5, 66.5}, {ToolId{0}, 66.5, 99.5}});
    step.covered_share = 0.99;
    step.tools_out = {1, 0, 2};
    step.tools_in = {2, 0, 1};
    step.way_out = {pieceUp(1), alongThenUp(0, 33), alongThenUp(2, -33), partUp()};
    step.way_in = step.way_out;
    return planOf({step});
}

Brake onBeam() {
    Brake brake = brakeWith({bar("F100", 100)});
    brake.leaf().clamp = ClampKind::kOnBeam;
    brake.leaf().beam = Beam{25, 20};
    brake.leaf().opening_mm = 40;
    return brake;
}

Plan lUnderBeam() {
    FoldStep step = foldOf(lPart(), 0, {{ToolId{0}, 0, 100}});
    step.lift_in_mm = 10;
    step.lift_out_mm = 35;
    step.tools_out.clear();
    step.way_in = {partForward()};
    step.way_out = {partForward()};
    return planOf({step});
}

}  // namespace

TEST_CASE("pieces under lips come out one by one, middle first") {
    const Part part = lippedTray();
    const Brake brake = brakeWith({bar("B33", 33, 3)});
    CHECK(textOf(verified(part, brake, threePieces(part), kLipped)) == "");
}

TEST_CASE("a piece that leaves through a lip is trapped") {
    const Part part = lippedTray();
    Plan plan = threePieces(part);
    plan.folds[0].way_out[1] = pieceUp(0);
    const auto text = textOf(verified(part, brakeWith({bar("B33", 33, 3)}), plan, kLipped));
    CHECK_THAT(text, Contains("way out: bar B33 meets the part on its way") && !Contains("way in"));
}

TEST_CASE("pieces in the wrong order meet one another") {
    const Part part = lippedTray();
    Plan plan = threePieces(part);
    std::swap(plan.folds[0].way_out[0], plan.folds[0].way_out[1]);
    const auto text = textOf(verified(part, brakeWith({bar("B33", 33, 3)}), plan, kLipped));
    CHECK_THAT(text, Contains("bar B33 meets bar B33 on its way") && Contains("order in which bars come out"));
}

TEST_CASE("a way that stops short, takes no part out or goes on after it is found") {
    const Brake brake = brakeWith({bar("B100", 100)});
    const Part part = lippedTray();
    Plan plan = threePieces(part);
    plan.folds[0].way_out[1].path.pop_back();  // slid out from under the lip and left there: free to go up
    CHECK(textOf(verified(part, brakeWith({bar("B33", 33, 3)}), plan, kLipped)) == "");
    plan.folds[0].way_out[1].path = {{1, 0, 0, 0}};
    plan.folds[0].way_out[1].path[0].x_mm = 0;
    CHECK(textOf(verified(part, brakeWith({bar("B33", 33, 3)}), plan, kLipped)) == "");  // forward or back is free too

    Plan l = planOf({foldOf(lPart(), 0, {{ToolId{0}, 0, 100}})});
    l.folds[0].way_out.pop_back();
    CHECK_THAT(textOf(verified(lPart(), brake, l)), Contains("way out: the part does not come out"));
    l.folds[0].way_out.push_back(partUp());
    l.folds[0].way_out.push_back(partUp());
    CHECK_THAT(textOf(verified(lPart(), brake, l)), Contains("after the part has left"));
    l.folds[0].way_in.clear();
    CHECK_THAT(textOf(verified(lPart(), brake, l)), Contains("way in, told backwards: the part does not come out"));
}

TEST_CASE("a part lifted through a standing bar is found") {
    Plan plan = planOf({foldOf(lPart(), 0, {{ToolId{0}, 0, 100}})});
    plan.folds[0].tools_out.clear();
    plan.folds[0].way_out = {partUp()};
    CHECK_THAT(textOf(verified(lPart(), brakeWith({bar("B100", 100)}), plan)),
               Contains("the part meets bar B100 on its way"));
}

TEST_CASE("under a raised beam the part comes out forward") {
    const auto findings = verified(lPart(), onBeam(), lUnderBeam());
    INFO(textOf(findings));
    CHECK(findings.empty());
}

TEST_CASE("a beam lifts no farther than it opens, and loose bars not at all") {
    Plan plan = lUnderBeam();
    plan.folds[0].lift_out_mm = 45;
    CHECK_THAT(textOf(verified(lPart(), onBeam(), plan)), Contains("it opens 40.000 mm"));
    Brake loose = brakeWith({bar("B100", 100)});
    Plan lifted = planOf({foldOf(lPart(), 0, {{ToolId{0}, 0, 100}})});
    lifted.folds[0].lift_out_mm = 5;
    CHECK_THAT(textOf(verified(lPart(), loose, lifted)), Contains("not lifted by a beam"));
}

TEST_CASE("a part behind its bar does not come out forward until the bar is above it") {
    // A rear wall 30 high behind a bar 20 deep: raised by 10 the bar is still in its way, raised by 35 not.
    Part part = sheetPart(rectangle(0, 0, 100, 60));
    addFlange(part, 0, "front", Vec2(0, 0), Vec2(100, 0), 20);
    addFlange(part, 0, "rear", Vec2(100, 60), Vec2(0, 60), 30);
    Brake brake = onBeam();
    brake.leaf().bars[0].profile = noseProfile(25, 40);
    brake.leaf().beam = Beam{60, 20};
    FoldStep step = foldOf(part, 0, {{ToolId{0}, 0, 100}});
    step.tools_out.clear();
    step.lift_in_mm = step.lift_out_mm = 35;
    step.way_in = step.way_out = {partForward()};
    CHECK(textOf(verified(part, brake, planOf({step}), 0b10)) == "");
    step.lift_out_mm = 10;
    CHECK_THAT(textOf(verified(part, brake, planOf({step}), 0b10)),
               Contains("way out: the part meets bar F100 on its way"));
}

TEST_CASE("a beam that rises through a lip is found") {
    const Part part = lippedTray();
    Brake brake = onBeam();
    brake.leaf().bars = {bar("F99", 99)};
    brake.leaf().beam = Beam{60, 20};
    FoldStep step = foldOf(part, 4, {{ToolId{0}, 0.5, 99.5}});
    step.covered_share = 0.99;
    step.tools_out.clear();
    step.lift_in_mm = step.lift_out_mm = 30;
    step.way_in = step.way_out = {partForward()};
    CHECK_THAT(textOf(verified(part, brake, planOf({step}), kLipped)),
               Contains("bar F99 meets the part when it rises"));
}

TEST_CASE("pieces leave in place only where the brake allows it") {
    Brake brake = onBeam();
    brake.leaf().beam = Beam{60, 20};
    Plan plan = lUnderBeam();
    FoldStep& step = plan.folds[0];
    step.tools_out = {0};
    step.way_out = {{ExitMove::Kind::kPieceBack, 0, {{0, -100, 35, 0}}}, partForward()};
    CHECK(textOf(verified(lPart(), brake, plan)) == "");
    brake.leaf().pieces_out_in_place = false;
    CHECK_THAT(textOf(verified(lPart(), brake, plan)), Contains("cannot be taken out in place"));
}

TEST_CASE("a part leaves tilted along a path with turns") {
    // A standing flange under a beam close above: out forward it goes, level or tilted; tilted into the bed not.
    Plan plan = lUnderBeam();
    plan.folds[0].way_out[0] = {ExitMove::Kind::kPartTilted, -1, {{0, -20, 5, 5}, {0, -250, 40, 15}}};
    CHECK(textOf(verified(lPart(), onBeam(), plan)) == "");
    plan.folds[0].way_out[0].path = {{0, 0, 0, -20}, {0, -250, 0, -20}};
    CHECK_THAT(textOf(verified(lPart(), onBeam(), plan)), Contains("the part meets bed on its way"));
}
