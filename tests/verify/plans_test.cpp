// SPDX-License-Identifier: GPL-3.0-or-later
// Sound plans made by hand, and the same with one defect each, which the replay must find.
#include <catch2/catch.hpp>

#include "hand_made.h"

using namespace tinwright;
using namespace tinwright::hand_made;
using Catch::Matchers::Contains;

namespace {

constexpr BendMask kSideWalls = 0b011;

Brake fullBrake() { return brakeWith({bar("B100", 100)}); }
Plan lPlan() { return planOf({foldOf(lPart(), 0, {{ToolId{0}, 0, 100}})}); }

// Front of the tray with one bar of a given width in the middle between the walls.
Plan trayFront(double width_mm) {
    const double off = 0.5 * (100 - width_mm);
    Plan plan = planOf({foldOf(trayPart(), 2, {{ToolId{0}, off, 100 - off}})});
    plan.folds[0].covered_share = std::min(1.0, width_mm / 100);
    return plan;
}

}  // namespace

TEST_CASE("an L folded under one full bar is sound") {
    const auto findings = verified(lPart(), fullBrake(), lPlan());
    INFO(textOf(findings));
    CHECK(findings.empty());
}

TEST_CASE("an L folded with its flange held is sound") {
    const Part part = lPart();
    Plan plan = lPlan();
    plan.folds[0].stroke.hold = Side::kChild;
    plan.folds[0].held = {PanelId{1}};
    const auto findings = verified(part, fullBrake(), plan);
    INFO(textOf(findings));
    CHECK(findings.empty());
}

TEST_CASE("a downward L is folded with the other face up") {
    Part part = sheetPart(rectangle(0, 0, 100, 60));
    addFlange(part, 0, "front", Vec2(0, 0), Vec2(100, 0), 30, false);
    Plan plan = planOf({foldOf(part, 0, {{ToolId{0}, 0, 100}})});
    CHECK(textOf(verified(part, fullBrake(), plan)) == "");
    plan.folds[0].drawn_face_up = true;
    CHECK_THAT(textOf(verified(part, fullBrake(), plan)), Contains("wrong face"));
}

TEST_CASE("a bar between standing walls is sound when it is narrower") {
    const auto findings = verified(trayPart(), brakeWith({bar("B99", 99)}), trayFront(99), kSideWalls);
    INFO(textOf(findings));
    CHECK(findings.empty());
}

TEST_CASE("a whole tray is sound, walls first") {
    const Part part = trayPart();
    const Brake brake = brakeWith({bar("B60", 60), bar("B99", 99)});
    FoldStep front = foldOf(part, 2, {{ToolId{1}, 0.5, 99.5}});
    front.covered_share = 0.99;
    Plan plan = planOf({foldOf(part, 0, {{ToolId{0}, 0, 60}}), foldOf(part, 1, {{ToolId{0}, 0, 60}}), front});
    CHECK(textOf(verified(part, brake, plan)) == "");
    plan.folds.pop_back();
    CHECK_THAT(textOf(verified(part, brake, plan)), Contains("bend front is never folded"));
}

TEST_CASE("a bar inside a wall is found") {
    const auto text = textOf(verified(trayPart(), brakeWith({bar("B104", 104)}), trayFront(104), kSideWalls));
    CHECK_THAT(text, Contains("panel left meets bar B104") && Contains("panel right meets bar B104"));
}

TEST_CASE("a bar that rides up the walls' fillets is found, and end relief frees it") {
    const Plan plan = trayFront(101);  // 0.5 mm over each tangent line, 0.5 mm short of each wall
    const auto text = textOf(verified(trayPart(), brakeWith({bar("B101", 101)}), plan, kSideWalls));
    CHECK_THAT(text, Contains("bend left meets bar B101") && !Contains("panel left meets"));
    CHECK(textOf(verified(trayPart(), brakeWith({bar("B101", 101, 1, 2.0)}), plan, kSideWalls)) == "");
}

TEST_CASE("held sheet beside an inset tab is lifted by the leaf") {
    Part part = sheetPart(
        {Vec2(0, 0), Vec2(28, 0), Vec2(28, 12), Vec2(72, 12), Vec2(72, 0), Vec2(100, 0), Vec2(100, 60), Vec2(0, 60)});
    addFlange(part, 0, "tab", Vec2(30, 12), Vec2(70, 12), 30);
    const Brake brake = brakeWith({bar("B40", 40)});
    CHECK_THAT(textOf(verified(part, brake, planOf({foldOf(part, 0, {{ToolId{0}, 0, 40}})}))),
               Contains("panel base meets leaf"));
}

TEST_CASE("a wrong set angle is found, and one past the leaf's reach") {
    Plan plan = lPlan();
    plan.folds[0].set_angle = Angle::degrees(90);
    CHECK_THAT(textOf(verified(lPart(), fullBrake(), plan)), Contains("set angle is 90.000"));
    Brake brake = fullBrake();
    brake.leaf().max_leaf_angle = Angle::degrees(92);
    CHECK_THAT(textOf(verified(lPart(), brake, lPlan())), Contains("more than the leaf's 92"));
}

TEST_CASE("a bar used twice, bars that overlap and a width that is not the bar's are found") {
    Plan plan = planOf({foldOf(lPart(), 0, {{ToolId{0}, 0, 50}, {ToolId{0}, 50, 100}})});
    CHECK(textOf(verified(lPart(), brakeWith({bar("B50", 50, 2)}), plan)) == "");
    CHECK_THAT(textOf(verified(lPart(), brakeWith({bar("B50", 50, 1)}), plan)),
               Contains("B50 is used more often than the 1"));
    CHECK_THAT(textOf(verified(lPart(), brakeWith({bar("B51", 51, 2)}), plan)), Contains("it is 51.000 mm wide"));
    plan.folds[0].tools[1] = {ToolId{0}, 49, 99};
    CHECK_THAT(textOf(verified(lPart(), brakeWith({bar("B50", 50, 2)}), plan)), Contains("overlaps"));
}

TEST_CASE("bar gaps and open ends are held to the shop's limits") {
    Plan plan = planOf({foldOf(lPart(), 0, {{ToolId{0}, 4, 48}, {ToolId{0}, 52, 96}})});
    plan.folds[0].covered_share = 0.88;
    const Brake brake = brakeWith({bar("B44", 44, 2)});
    CHECK(textOf(verified(lPart(), brake, plan)) == "");
    plan.folds[0].tools[1] = {ToolId{0}, 52.5, 96.5};
    CHECK_THAT(textOf(verified(lPart(), brake, plan)), Contains("open for 4.500 mm between two bars"));
    plan.folds[0].tools = {{ToolId{0}, 6, 50}, {ToolId{0}, 54, 98}};
    CHECK_THAT(textOf(verified(lPart(), brake, plan)), Contains("open for 6.000 mm at an end"));
    plan.folds[0].covered_share = 1.0;
    CHECK_THAT(textOf(verified(lPart(), brake, plan)), Contains("covered share is 0.88"));
}

TEST_CASE("too little clamped land is found") {
    Part part = sheetPart(rectangle(0, 0, 100, 4));
    addFlange(part, 0, "front", Vec2(0, 0), Vec2(100, 0), 30);
    CHECK_THAT(textOf(verified(part, fullBrake(), planOf({foldOf(part, 0, {{ToolId{0}, 0, 100}})}))),
               Contains("only 0.0 of 100.0 mm of the bend have 6.000 mm of clamped land"));
}

TEST_CASE("a claimed clearance must be a lower bound") {
    Plan plan = trayFront(99);  // half a millimetre from bar to each fillet
    const Brake brake = brakeWith({bar("B99", 99)});
    plan.folds[0].clearance_mm = 0.5;
    CHECK(textOf(verified(trayPart(), brake, plan, kSideWalls)) == "");
    plan.folds[0].clearance_mm = 0.55;
    CHECK_THAT(textOf(verified(trayPart(), brake, plan, kSideWalls)), Contains("bend left comes nearer to bar B99"));
    plan.worst_clearance_mm = 0.7;
    CHECK_THAT(textOf(verified(trayPart(), brake, plan, kSideWalls)), Contains("worst clearance"));
}

TEST_CASE("a leg folded first stands in the bar") {
    Part part = sheetPart(rectangle(0, 0, 100, 40));
    addFlange(part, 0, "front", Vec2(0, 0), Vec2(100, 0), 50);
    addFlange(part, 0, "rear", Vec2(100, 40), Vec2(0, 40), 50);
    const Plan plan = planOf({foldOf(part, 1, {{ToolId{0}, 0, 100}}), foldOf(part, 0, {{ToolId{0}, 0, 100}})});
    const auto text = textOf(verified(part, fullBrake(), plan));
    CHECK_THAT(text, Contains("2: panel rear meets bar B100") && !Contains("1: "));
}

TEST_CASE("a leg that swings into the bar is found with its angle") {
    // A leg with a lip folded first: with a web shorter than the leg it swings the lip into the bar's face.
    Part part = sheetPart(rectangle(0, 0, 100, 60));
    addFlange(part, 0, "leg", Vec2(0, 0), Vec2(100, 0), 20);
    const double tip = -part.bends[0].allowance_mm - 20;
    addFlange(part, 1, "lip", Vec2(0, tip), Vec2(100, tip), 40);
    const auto text = textOf(verified(part, fullBrake(), planOf({foldOf(part, 0, {{ToolId{0}, 0, 100}})}), 0b10));
    CHECK_THAT(text, Contains("panel lip meets bar B100 at ") && Contains("(rolling)"));
}

TEST_CASE("a panel that goes through a panel is found") {
    Part part = sheetPart(rectangle(0, 0, 100, 60));
    addFlange(part, 0, "left", Vec2(0, 60), Vec2(0, 0), 30, true, 90, 0, 20);  // reaches 20 past the front
    addFlange(part, 0, "front", Vec2(0, 0), Vec2(100, 0), 30, true, 90, 10, 0);
    FoldStep front = foldOf(part, 1, {{ToolId{0}, 1, 100}});
    front.covered_share = 0.99;
    CHECK_THAT(textOf(verified(part, brakeWith({bar("B99", 99)}), planOf({front}), 0b01)),
               Contains("panel front meets panel left"));
}

TEST_CASE("an end frame bounds the part, an open end lets it hang") {
    Part part = sheetPart(rectangle(0, 0, 100, 60));
    addFlange(part, 0, "front", Vec2(20, 0), Vec2(80, 0), 30);
    Brake brake = brakeWith({bar("B60", 60)});
    Plan plan = planOf({foldOf(part, 0, {{ToolId{0}, 0, 60}})});
    plan.folds[0].part_x_mm = 5;
    plan.folds[0].overhang_mm = -15;
    CHECK(textOf(verified(part, brake, plan)) == "");
    brake.overhang_left = false;
    CHECK_THAT(textOf(verified(part, brake, plan)), Contains("passes the left end frame by 15.000 mm"));
    brake.overhang_left = true;
    plan.folds[0].overhang_mm = 0;
    CHECK_THAT(textOf(verified(part, brake, plan)), Contains("hangs 15.000 mm past the left"));
    plan.folds[0].part_x_mm = -1;
    CHECK_THAT(textOf(verified(part, brake, plan)), Contains("past an end of the machine"));
}

TEST_CASE("collinear bends go together only while they are on one line") {
    Part part = sheetPart(rectangle(0, 0, 100, 60));
    addFlange(part, 0, "a", Vec2(0, 0), Vec2(40, 0), 30);
    addFlange(part, 0, "b", Vec2(60, 0), Vec2(100, 0), 30);
    addFlange(part, 0, "c", Vec2(0, 60), Vec2(0, 0), 30);
    FoldStep step = foldOf(part, 0, {{ToolId{0}, 0, 40}, {ToolId{0}, 60, 100}});
    step.stroke.bends = bit(BendId{0}) | bit(BendId{1});
    const Brake brake = brakeWith({bar("B40", 40, 2)});
    CHECK(textOf(verified(part, brake, planOf({step}), 0b100)) == "");
    step.stroke.bends = bit(BendId{0}) | bit(BendId{2});
    CHECK_THAT(textOf(verified(part, brake, planOf({step}))), Contains("not on one line"));
    step.stroke.bends = bit(BendId{0});
    CHECK_THAT(textOf(verified(part, brake, planOf({step}), 0b101)), Contains("formed already"));
}

TEST_CASE("a leaf that reaches a bar past a short flange is found") {
    Part part = sheetPart(rectangle(0, 0, 100, 60));
    addFlange(part, 0, "front", Vec2(0, 0), Vec2(100, 0), 5);
    Bar upright = bar("U100", 100);
    upright.profile = {Vec2(1, 0), Vec2(60, 0), Vec2(60, 60), Vec2(0, 60), Vec2(0, 10), Vec2(1, 8)};
    const auto text = textOf(verified(part, brakeWith({upright}), planOf({foldOf(part, 0, {{ToolId{0}, 0, 100}})})));
    CHECK_THAT(text, Contains("leaf meets bar U100") && !Contains("panel front meets bar"));
}
