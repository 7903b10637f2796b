// SPDX-License-Identifier: GPL-3.0-or-later
// Sound plans for a press brake made by hand, and the same with one defect each, which the replay must find.
#include <catch2/catch.hpp>

#include "hand_made_press.h"

using namespace tinwright;
using namespace tinwright::hand_made;
using Catch::Matchers::Contains;

namespace {

constexpr ToolId kPunch{0};
constexpr ToolId kDie{1};

// One punch and one die, both as wide as the bend.
Brake fullPress(double width_mm = 100) { return pressWith({punch("S", width_mm), die("V8", width_mm)}); }
std::vector<PlacedTool> full(double width_mm = 100) { return {{kPunch, 0, width_mm}, {kDie, 0, width_mm}}; }
Plan lPlan() { return planOf({pressFold(lPart(), 0, full())}); }
std::string found(const Brake& brake, const Plan& plan, const Part& part = lPart(), BendMask formed = 0) {
    return textOf(verified(part, brake, plan, formed));
}

Part flangeOf(double length_mm) {
    Part part = sheetPart(rectangle(0, 0, 100, 60));
    addFlange(part, 0, "front", Vec2(0, 0), Vec2(100, 0), length_mm);
    return part;
}

// Two legs on a web: bends 0 near, 1 far.
Part channel(double web_mm, double leg_mm) {
    Part part = sheetPart(rectangle(0, 0, 100, web_mm));
    addFlange(part, 0, "near", Vec2(0, 0), Vec2(100, 0), leg_mm);
    addFlange(part, 0, "far", Vec2(100, web_mm), Vec2(0, web_mm), leg_mm);
    return part;
}
constexpr BendMask kNear = 0b01;

// Front of the tray with a punch of a given width in the middle between the walls.
Plan trayFront(double width_mm) {
    const double off = 0.5 * (100 - width_mm);
    FoldStep step = pressFold(trayPart(), 2, {{kPunch, off, 100 - off}, {kDie, 0, 100}});
    step.covered_share = std::min(1.0, width_mm / 100);
    return planOf({step});
}
constexpr BendMask kSideWalls = 0b011;

}  // namespace

TEST_CASE("press brake: an L is sound with either side at the back") {
    CHECK(found(fullPress(), lPlan()) == "");
    CHECK(found(fullPress(), planOf({pressFold(lPart(), 0, full(), Side::kParent)})) == "");
}

TEST_CASE("press brake: a downward L is folded with the other face up") {
    Part part = sheetPart(rectangle(0, 0, 100, 60));
    addFlange(part, 0, "front", Vec2(0, 0), Vec2(100, 0), 30, false);
    Plan plan = planOf({pressFold(part, 0, full())});
    CHECK(found(fullPress(), plan, part) == "");
    plan.folds[0].drawn_face_up = true;
    CHECK_THAT(found(fullPress(), plan, part), Contains("wrong face"));
}

TEST_CASE("press brake: what the step says of angle and held side must be so") {
    Plan plan = lPlan();
    plan.folds[0].set_angle = Angle::degrees(90);
    CHECK_THAT(found(fullPress(), plan), Contains("set angle is 90.000"));
    plan = lPlan();
    plan.folds[0].stroke.hold = Side::kParent;
    CHECK_THAT(found(fullPress(), plan), Contains("held are not those"));
}

TEST_CASE("press brake: a V that the sheet would bottom in is found") {
    const Vee wide{8, Angle::degrees(88), 1};
    CHECK_THAT(found(pressWith({punch("S", 100), die("V8", 100, wide)}), lPlan()),
               Contains("a V of 88.000° does not take a bend by 93.000°"));
    const Vee just{8, Angle::degrees(87), 1};
    CHECK(found(pressWith({punch("S", 100), die("V8", 100, just)}), lPlan()) == "");
}

TEST_CASE("press brake: punches and dies that do not go together are found") {
    const std::vector<PlacedTool> two_dies{{kPunch, 0, 100}, {ToolId{1}, 0, 50}, {ToolId{2}, 50, 100}};
    const auto textWith = [&](const Die& second) {
        return found(pressWith({punch("S", 100), die("A", 50), second}), planOf({pressFold(lPart(), 0, two_dies)}));
    };
    CHECK(textWith(die("B", 50)) == "");
    CHECK_THAT(textWith(die("B", 50, {10, Angle::degrees(85), 1})), Contains("die B has another V than A"));
    CHECK_THAT(textWith(die("B", 50, kVee, 70)), Contains("die B is 70.000 mm high, A beside it 60.000 mm"));
    const std::vector<PlacedTool> blunt{{kPunch, 0, 100}, {ToolId{2}, 0, 100}};
    CHECK_THAT(found(pressWith({punch("S", 100, 1.5), punch("sharp", 100), die("V8", 100)}),
                     planOf({pressFold(lPart(), 0, blunt)})),
               Contains("tip of punch S has a radius of 1.500 mm, the bend one of 1.000 mm"));
    const std::vector<PlacedTool> two_punches{{ToolId{0}, 0, 50}, {ToolId{1}, 50, 100}, {ToolId{2}, 0, 100}};
    CHECK_THAT(found(pressWith({punch("S", 50), die("V8", 100), gooseneck("G", 50)}),
                     planOf({pressFold(lPart(), 0, two_punches)})),
               Contains("punch G is 105.000 mm high, S beside it 65.000 mm"));
}

TEST_CASE("press brake: without punch or die nothing can be replayed") {
    Plan plan = lPlan();
    plan.folds[0].tools = {{kPunch, 0, 100}};
    CHECK_THAT(found(fullPress(), plan), Contains("no die lies under the sheet") && Contains("the replay ends here"));
    plan.folds[0].tools = {{kDie, 0, 100}};
    CHECK_THAT(found(fullPress(), plan),
               Contains("no punch stands over the sheet") && Contains("the replay ends here"));
}

TEST_CASE("press brake: each row is held to inventory, width, machine and cover by itself") {
    Plan plan = planOf({pressFold(lPart(), 0, {{kPunch, 0, 50}, {kPunch, 50, 100}, {kDie, 0, 50}, {kDie, 50, 100}})});
    Brake brake = pressWith({punch("S", 50), die("V8", 50)});
    brake.press().punches[0].count = brake.press().dies[0].count = 2;
    CHECK(found(brake, plan) == "");
    brake.press().dies[0].count = 1;
    CHECK_THAT(found(brake, plan), Contains("die V8 is used more often than the 1"));
    brake.press().dies[0].count = 2;
    plan.folds[0].tools[3] = {kDie, 40, 90};
    CHECK_THAT(found(brake, plan),
               Contains("die V8 overlaps the die before it") && Contains("open for 10.000 mm at an end of the dies"));
    plan.folds[0].tools[3] = {kDie, 55, 105};
    CHECK_THAT(found(brake, plan), Contains("open for 5.000 mm between two dies"));
    plan.folds[0].tools.pop_back();
    CHECK_THAT(found(brake, plan), Contains("open for 50.000 mm at an end of the dies") && !Contains("punches"));
    plan.folds[0].tools = {{kPunch, 0, 50}, {kDie, 0, 50}, {kDie, 50, 100}};
    CHECK_THAT(found(brake, plan), Contains("open for 50.000 mm at an end of the punches") &&
                                       Contains("covered share is 0.5000") && !Contains("dies"));
    plan.folds[0].tools = {{kPunch, 0, 49}, {kPunch, 50, 100}, {kDie, 0, 50}, {kDie, 50, 100}};
    CHECK_THAT(found(brake, plan), Contains("punch S stands on 49.000 mm, it is 50.000 mm wide"));
    plan = planOf({pressFold(lPart(), 0, full())});
    plan.folds[0].part_x_mm = 550;
    CHECK_THAT(found(fullPress(), plan),
               Contains("punch S stands past an end") && Contains("die V8 stands past an end"));
}

// From the geometry: flat sheet bears where the shoulder's arc touches the die's top, half of the V and tan((90° - 85°
// / 2) / 2) of the shoulder's radius from the bend line, and in this V it bears nearer to it from then on; the flange
// begins half of the allowance from that line.
TEST_CASE("press brake: a flange that leaves the shoulders is found, on either side") {
    const double least_mm = 4 + std::tan(23.75 * std::numbers::pi / 180) - 0.5 * lPart().bends[0].allowance_mm;
    const auto textFor = [&](double length_mm, Side hold) {
        const Part part = flangeOf(length_mm);
        return found(fullPress(), planOf({pressFold(part, 0, full(), hold)}), part);
    };
    CHECK(textFor(least_mm + 0.1, Side::kChild) == "");
    CHECK(textFor(least_mm + 0.1, Side::kParent) == "");
    CHECK_THAT(textFor(least_mm - 0.1, Side::kChild),
               Contains("only 0.0 of 100.0 mm of the bend lie on the back shoulder"));
    CHECK_THAT(textFor(least_mm - 0.1, Side::kParent),
               Contains("only 0.0 of 100.0 mm of the bend lie on the front shoulder"));
}

TEST_CASE("press brake: a punch wider than the room between standing walls is found") {
    const auto textFor = [&](double width_mm) {
        return found(pressWith({punch("S", width_mm), die("V8", 100)}), trayFront(width_mm), trayPart(), kSideWalls);
    };
    CHECK(textFor(99) == "");
    CHECK_THAT(textFor(104), Contains("panel left meets punch S") && Contains("panel right meets punch S"));
}

TEST_CASE("press brake: a horn reaches under lips that a full punch meets, at its own end") {
    // A wall 25 high with an inward lip of 10 at one end of the front: at the right, since the front is at the back.
    Part part = sheetPart(rectangle(0, 0, 100, 60));
    addFlange(part, 0, "left", Vec2(0, 60), Vec2(0, 0), 25);
    const double out = part.bends[0].allowance_mm + 25;
    addFlange(part, 1, "lip", Vec2(-out, 60), Vec2(-out, 10), 10);
    addFlange(part, 0, "front", Vec2(0, 0), Vec2(100, 0), 30);
    Plan plan = planOf({pressFold(part, 2, {{kPunch, 0.5, 99.5}, {kDie, 0, 100}})});
    plan.folds[0].covered_share = 0.99;
    const auto textWith = [&](const Punch& piece) {
        return found(pressWith({piece, die("V8", 100)}), plan, part, 0b011);
    };
    CHECK_THAT(textWith(punch("S", 99)), Contains("panel lip meets punch S at"));
    CHECK_THAT(textWith(horned(punch("S", 99), true)), Contains("panel lip meets punch S at"));
    CHECK_THAT(textWith(horned(punch("S", 99), false)),
               !Contains("panel lip") && Contains("way out: punch S meets the part when it rises"));
}

// Common practice: the first leg of a deep narrow channel runs into a straight punch; a gooseneck lets it in, on its
// hollow side.
TEST_CASE("press brake: the leg of a deep channel meets a straight punch, not a gooseneck with its hollow to it") {
    const Part part = channel(45, 45);
    Plan plan = planOf({pressFold(part, 1, full())});
    plan.folds[0].way_out = {offLeft()};
    plan.folds[0].lift_out_mm = 5;
    const Brake gooseneck_press = pressWith({gooseneck("G", 100), die("V8", 100)});
    CHECK(found(gooseneck_press, plan, part, kNear) == "");
    CHECK_THAT(found(fullPress(), plan, part, kNear), Contains("panel near meets punch S at"));
    plan.folds[0].stroke.hold = Side::kParent;
    plan.folds[0].held = {PanelId{0}};
    CHECK_THAT(found(gooseneck_press, plan, part, kNear), Contains("panel near meets punch G at"));
}

TEST_CASE("press brake: a leg longer than the punch meets the ram") {
    Part part = sheetPart(rectangle(0, 0, 100, 100));
    addFlange(part, 0, "near", Vec2(0, 0), Vec2(100, 0), 130);
    addFlange(part, 0, "far", Vec2(100, 100), Vec2(0, 100), 20);
    CHECK_THAT(
        found(pressWith({gooseneck("G", 100), die("V8", 100)}), planOf({pressFold(part, 1, full())}), part, kNear),
        Contains("panel near meets ram at") && !Contains("panel near meets punch G at"));
}

TEST_CASE("press brake: what hangs down meets die and bed") {
    const auto textFor = [&](double web_mm, double down_mm) {
        Part part = sheetPart(rectangle(0, 0, 100, web_mm));
        addFlange(part, 0, "front", Vec2(0, 0), Vec2(100, 0), 30);
        addFlange(part, 0, "down", Vec2(100, web_mm), Vec2(0, web_mm), down_mm, false);
        Plan plan = planOf({pressFold(part, 0, full())});
        plan.folds[0].way_in = plan.folds[0].way_out = {offLeft()};
        return found(fullPress(), plan, part, 0b10);
    };
    CHECK_THAT(textFor(10, 20), Contains("panel down meets die V8 at 0.00°"));
    CHECK(textFor(40, 40) == "");
    CHECK_THAT(textFor(26, 70), Contains("panel down meets bed at 0.00°") && !Contains("meets die V8 at"));
}

TEST_CASE("press brake: a punch blunter than the bend goes through the sheet into the die") {
    const Part part = flangeOf(30);
    const PunchSection blunt{Angle::degrees(140), 0.8, 65, 40, {}};
    const Punch piece{pressPiece("W", 100, 65, punchSection(blunt)), 0.8, {}, 0};
    CHECK_THAT(found(pressWith({piece, die("V8", 100)}), planOf({pressFold(part, 0, full())}), part),
               Contains("punch W meets die V8 at") && Contains("panel base meets punch W at"));
}

TEST_CASE("press brake: side frames bar what reaches behind them") {
    Part part = sheetPart(rectangle(0, 0, 100, 250));
    addFlange(part, 0, "front", Vec2(0, 0), Vec2(100, 0), 30);
    Brake brake = fullPress();
    brake.press().throat_mm = 150;
    brake.press().frames_left_mm = 100;
    brake.press().frames_right_mm = 500;
    Plan plan = planOf({pressFold(part, 0, full(), Side::kParent)});
    plan.folds[0].lift_out_mm = 60;
    plan.folds[0].way_out = {{ExitMove::Kind::kPartTilted, -1, {{0, 0, 8, 0}, {0, 0, 8, -45}, {0, -700, 8, -45}}}};
    const auto at = [&](double part_x_mm) {
        plan.folds[0].part_x_mm = part_x_mm;
        return found(brake, plan, part);
    };
    CHECK_THAT(at(200), !Contains("frame"));
    CHECK_THAT(at(50), Contains("panel base meets left side frame at 0.00°"));
    CHECK_THAT(at(450), Contains("panel base meets right side frame at 0.00°"));
    plan.folds[0].clearance_mm = 2;
    CHECK_THAT(at(101), Contains("panel base comes nearer to left side frame than the clearance"));
}

TEST_CASE("press brake: end frames bound the part, open ends let it hang") {
    Plan plan = lPlan();
    plan.folds[0].tools = {{kPunch, 0, 100}, {kDie, 0, 100}};
    Part part = sheetPart(rectangle(-20, 0, 100, 60));
    addFlange(part, 0, "front", Vec2(0, 0), Vec2(100, 0), 30);
    // With the child at the back the part's left is the blank's right.
    plan.folds[0].part_x_mm = 500;
    plan.folds[0].overhang_mm = 20;
    Brake brake = fullPress();
    CHECK(found(brake, plan, part) == "");
    plan.folds[0].overhang_mm = 0;
    CHECK_THAT(found(brake, plan, part), Contains("hangs 0.000 mm past the left and 20.000 mm past the right"));
    brake.overhang_right = false;
    CHECK_THAT(found(brake, plan, part),
               Contains("passes the right end frame by 20.000 mm") && Contains("panel base meets right end frame"));
}

TEST_CASE("press brake: a claimed clearance must be a lower bound") {
    Plan plan = trayFront(99);  // half a millimetre from punch to each fillet
    const Brake brake = pressWith({punch("S", 99), die("V8", 100)});
    plan.folds[0].clearance_mm = 0.5;
    CHECK(found(brake, plan, trayPart(), kSideWalls) == "");
    plan.folds[0].clearance_mm = 0.55;
    CHECK_THAT(found(brake, plan, trayPart(), kSideWalls), Contains("bend left comes nearer to punch S"));
    plan.folds[0].clearance_mm = 0.5;
    plan.worst_clearance_mm = 0.7;
    CHECK_THAT(found(brake, plan, trayPart(), kSideWalls), Contains("worst clearance"));
}

TEST_CASE("press brake: a ram that does not come down so far is found") {
    Brake brake = fullPress();
    brake.press().open_height_mm = 300;
    CHECK_THAT(found(brake, lPlan()), Contains("the ram brings them to 180.000 mm"));
}

TEST_CASE("press brake: collinear bends go together, with the middle of their strips at the tip") {
    Part part = sheetPart(rectangle(0, 0, 100, 60));
    addFlange(part, 0, "a", Vec2(0, 0), Vec2(40, 0), 30);
    addFlange(part, 0, "b", Vec2(60, 0), Vec2(100, 0), 30);
    FoldStep step =
        pressFold(part, 0, {{kPunch, 0, 40}, {kPunch, 60, 100}, {kDie, 0, 40}, {kDie, 60, 100}}, Side::kParent);
    step.stroke.bends = bit(BendId{0}) | bit(BendId{1});
    Brake brake = pressWith({punch("S", 40), die("V8", 40)});
    brake.press().punches[0].count = brake.press().dies[0].count = 2;
    CHECK(found(brake, planOf({step}), part) == "");
}
