// SPDX-License-Identifier: GPL-3.0-or-later
// Single folds on the shipped press brake, as far as the fold engine knows it: classic shapes with known answers.
#include <map>

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <tinwright/fold/engine/fold_engine.h>
#include <tinwright/io/recipe/recipe_io.h>
#include <tinwright/io/shop/shop_io.h>

#include <tinwright/report/sentences/reason_words.h>

#include "../one_vee.h"
#include "plan_support.h"

namespace tinwright::test {

namespace {

// The shipped press brake in its V of 12, with straight punches alone or with goosenecks alone.
Shop pressShop(const std::string& punches) {
    const Result<Shop> read =
        readShop(std::string(TINWRIGHT_SOURCE_DIR) + "/tests/plan/data/press-" + punches + ".json");
    INFO((read ? std::string() : toText(read.issues().front())));
    REQUIRE(read);
    Shop shop = read.value();
    for (const Vee& vee : veesOf(shop.brakes[0])) {
        if (vee.opening_mm == 12) {
            shop.brakes[0] = test::onlyVee(shop.brakes[0], vee);
            return shop;
        }
    }
    FAIL("no V of 12");
    return shop;
}

// A channel: base `web` wide with two legs, 200 long, 1.5 mild steel.
Part channel(double web_mm, double left_mm, double right_mm) {
    return partFrom(fmt::format(
        R"({{"format":"tinwright-part/1","units":"mm","name":"channel","sheet":{{"material":"mild-steel","thickness":1.5}},)"
        R"("allowance":{{"rule":"k-factor","k":0.42}},"inside_radius":1.92,"measured":"outside",)"
        R"("base":{{"name":"web","width":200,"depth":{}}},"flanges":[)"
        R"({{"name":"left","on":"web.front","length":{}}},{{"name":"right","on":"web.back","length":{}}}]}})",
        web_mm, left_mm, right_mm));
}

StrokeAnswer fold(const Part& part, const Shop& shop, const std::vector<std::string>& formed, const std::string& bend,
                  std::string* code = nullptr) {
    FoldEngine engine(part, shop, test::inUse(part, shop.brakes[0]));
    BendMask state = 0;
    for (const std::string& name : formed) state |= bit(bendNamed(part, name));
    StrokeAnswer best = StrokeAnswer::kImpossible;
    for (const Side hold : kBothSides) {
        const StrokeResult result = engine.check(state, {bit(bendNamed(part, bend)), hold});
        if (code != nullptr && result.code) *code += std::string(toText(*result.code)) + " ";
        if (result.answer == StrokeAnswer::kPossible) return result.answer;
        if (result.answer == StrokeAnswer::kUndecided) best = result.answer;
    }
    return best;
}

}  // namespace

TEST_CASE("a press brake folds a flat sheet, and a shallow channel with any punch") {
    for (const char* punches : {"straight", "gooseneck"}) {
        CAPTURE(punches);
        const Shop shop = pressShop(punches);
        const Part part = channel(80, 20, 20);
        std::string codes;
        const StrokeAnswer first = fold(part, shop, {}, "left", &codes);
        const StrokeAnswer second = fold(part, shop, {"left"}, "right", &codes);
        CAPTURE(codes);
        CHECK(first == StrokeAnswer::kPossible);
        CHECK(second == StrokeAnswer::kPossible);
    }
}

// Common practice: the first leg of a deep narrow channel runs into a straight punch; a gooseneck lets it in.
TEST_CASE("a channel deeper than a straight punch allows goes with a gooseneck") {
    const Part part = channel(50, 45, 45);
    std::string codes;
    const StrokeAnswer straight = fold(part, pressShop("straight"), {"left"}, "right", &codes);
    const StrokeAnswer gooseneck = fold(part, pressShop("gooseneck"), {"left"}, "right", &codes);
    CAPTURE(codes);
    CHECK(straight == StrokeAnswer::kImpossible);
    CHECK(gooseneck == StrokeAnswer::kPossible);
}

// The published least flange of a V of 12 is 8.5 mm (check-values.md, air-bend chart): 0.6 mm to either side of it.
TEST_CASE("a flange must reach past the shoulders of the V until it is bent") {
    const Shop shop = pressShop("straight");
    CHECK(fold(channel(80, 9.1, 40), shop, {}, "left") == StrokeAnswer::kPossible);
    std::string codes;
    CHECK(fold(channel(80, 7.9, 40), shop, {}, "left", &codes) == StrokeAnswer::kImpossible);
    CHECK(codes == "no-land no-land ");
}

// By hand, with no overbend: at 90 degrees both lower faces lie under 45 degrees, t + r = 1.5 + 1.92 = 3.42 from the
// arc's centre, which is 3.42 over the flat sheet's lower face. The shoulder (1.5 mm, of a V of 85 degrees) is a circle
// about 6 + 1.5 tan(23.75) = 6.660 from the middle; it touches a lower face when its centre is (3.42 + 1.5) sqrt 2
// - 6.660 under the arc's: at 3.42 + 6.660 - 6.958 = 3.122. The die's top is 1.5 mm over that.
TEST_CASE("how far the punch goes into the V is what the sheet on its shoulders leaves") {
    Shop shop = pressShop("straight");
    shop.overbend.default_deg = 0;
    shop.overbend.by_material_deg.clear();
    const Part part = channel(80, 20, 20);
    FoldEngine engine(part, shop, test::inUse(part, shop.brakes[0]));
    const Stroke stroke{bit(bendNamed(part, "left")), Side::kParent};
    const StrokeResult result = engine.check(0, stroke);
    REQUIRE(result.answer == StrokeAnswer::kPossible);
    CHECK(engine.describe(0, stroke, result).depth_mm == Approx(4.622).margin(0.002));
}

// A point 97 mm along the web from the tip and 78.5 mm over it, inside sizes, is at y = 97 cos h - 78.5 sin h when each
// side has risen by h. The adapter's front is at 20 mm: h = 41.8 degrees, and the bend is twice that. (The bend's
// radius is left out of this: a degree or two.)
TEST_CASE("contacts with tools of a press brake are told at the angle of the whole bend") {
    const Shop shop = pressShop("straight");
    const Part part = channel(100, 80, 40);
    FoldEngine engine(part, shop, test::inUse(part, shop.brakes[0]));
    const BendMask formed = bit(bendNamed(part, "left"));
    for (const Side hold : kBothSides) {
        const std::vector<Reason> reasons = engine.explain(formed, {bit(bendNamed(part, "right")), hold});
        REQUIRE(reasons.size() == 1);
        CHECK(reasons[0].code == ReasonCode::kHit);
        CHECK(reasons[0].panel == part.bend(bendNamed(part, "left")).child);
        CHECK(reasons[0].body == BodyRef::Kind::kRam);
        CHECK(reasons[0].at_deg == Approx(83.6).margin(3));
        const std::string words = reasonWords({part, shop, test::inUse(part, shop.brakes[0])}, reasons[0]);
        CHECK(words.starts_with(hold == Side::kParent ? "right, web at the back: " : "right, right at the back: "));
    }
}

TEST_CASE("when too few pieces cover a bend it is told of which row") {
    const Part part = channel(80, 20, 20);
    for (const ToolRow row : {ToolRow::kUpper, ToolRow::kLower}) {
        Shop shop = pressShop("straight");
        PressBrake& press = shop.brakes[0].press();
        for (Punch& punch : press.punches) {
            if (row == ToolRow::kUpper && punch.width_mm != 50) punch.count = 0;
        }
        for (Die& die : press.dies) {
            if (row == ToolRow::kLower && die.width_mm != 50) die.count = 0;
        }
        FoldEngine engine(part, shop, test::inUse(part, shop.brakes[0]));
        const std::vector<Reason> reasons = engine.explain(0, {bit(bendNamed(part, "left")), Side::kParent});
        REQUIRE(reasons.size() == 1);
        CHECK(reasons[0].code == ReasonCode::kNoBars);
        CHECK(reasons[0].body == (row == ToolRow::kLower ? BodyRef::Kind::kDie : BodyRef::Kind::kPunch));
        const std::string words = reasonWords({part, shop, test::inUse(part, shop.brakes[0])}, reasons[0]);
        CHECK(words.find(row == ToolRow::kLower
                             ? "no combination of the dies covers 200.0 mm"
                             : "no combination of the punches covers 200.0 mm") != std::string::npos);
    }
}

// Up to 180 degrees less the angle of the V the sheet stays off its flanks: an 85 degree V goes to 95.
TEST_CASE("a V does not press further than its own angle allows, and no order helps") {
    const Shop shop = pressShop("straight");
    for (const double angle_deg : {91.5, 92.5, 120.0}) {
        CAPTURE(angle_deg);
        const Part part = partFrom(fmt::format(
            R"({{"format":"tinwright-part/1","units":"mm","name":"angle","sheet":{{"material":"mild-steel","thickness":1.5}},)"
            R"("allowance":{{"rule":"k-factor","k":0.42}},"inside_radius":1.92,"measured":"outside",)"
            R"("base":{{"name":"web","width":200,"depth":60}},"flanges":[{{"name":"left","on":"web.front","length":40,"angle":{}}}]}})",
            angle_deg));
        FoldEngine engine(part, shop, test::inUse(part, shop.brakes[0]));
        const Stroke stroke{bit(bendNamed(part, "left")), Side::kParent};
        const StrokeResult result = engine.check(0, stroke);
        if (angle_deg + 3 < 95) {
            CHECK(result.answer == StrokeAnswer::kPossible);
            continue;
        }
        CHECK(result.answer == StrokeAnswer::kImpossible);
        CHECK(result.code == ReasonCode::kVeeAngle);
        const ForbiddenStroke forbidden = engine.conflictSet(0, stroke);
        CHECK(forbidden.mask == 0);
        CHECK(forbidden.any_company);
        const std::vector<Reason> reasons = engine.explain(forbidden);
        REQUIRE(reasons.size() == 1);
        CHECK(reasonWords({part, shop, test::inUse(part, shop.brakes[0])}, reasons[0]) ==
              fmt::format("left, web at the back: a V of 85° cannot press to {:.4g}° included ({:.4g}° turned): past "
                          "85° included (95° turned) the sheet lies on its flanks; it takes a sharper V",
                          177 - angle_deg, angle_deg + 3));
        const BrakeResult planned = planOnBrake(part, shop, 0, PlanOptions{});
        CHECK(planned.verdict == Verdict::kInfeasible);
        REQUIRE(planned.causes.size() == 1);
        CHECK(planned.causes[0].reasons.size() == 2);
    }
}

// Common practice: the smaller side is pushed against the stops, the larger is held in front.
TEST_CASE("Of two ways that take as long the smaller side lies at the gauge") {
    const auto sideways = [](const std::string& base, double base_mm, const std::string& flange, double flange_mm) {
        return partFrom(fmt::format(
            R"({{"format":"tinwright-part/1","units":"mm","name":"angle","sheet":{{"material":"mild-steel","thickness":1.5}},)"
            R"("allowance":{{"rule":"k-factor","k":0.42}},"inside_radius":1.92,"measured":"outside",)"
            R"("base":{{"name":"{}","width":200,"depth":{}}},"flanges":[{{"name":"{}","on":"{}.front","length":{}}}]}})",
            base, base_mm, flange, base, flange_mm));
    };
    const Shop shop = pressShop("straight");
    // The same angle drawn from either of its sides.
    for (const Part& part : {sideways("wide", 100, "strip", 30), sideways("strip", 30, "wide", 100)}) {
        const BrakeResult result = planOnBrake(part, shop, 0, PlanOptions{});
        REQUIRE(result.plans.size() == 2);
        CHECK(result.plans[0].cost_ms == result.plans[1].cost_ms);
        REQUIRE(result.plans[0].folds[0].held.size() == 1);
        CHECK(part.panel(result.plans[0].folds[0].held[0]).name == "strip");
        CHECK(part.panel(result.plans[1].folds[0].held[0]).name == "wide");
    }
}

// The ± of a stop is for the line's place on the sheet: what was gauged at the outside of a flange rests on that
// flange's own stop.
TEST_CASE("A plan tells of what is gauged over a bend no less than that bend's own stop and setting") {
    const Result<Shop> shop = readShop(std::string(TINWRIGHT_SOURCE_DIR) + "/tests/program/data/press-shop.json");
    REQUIRE(shop);
    const Result<Part> read = readPartFile(std::string(TINWRIGHT_SOURCE_DIR) + "/examples/hat-channel/part.json");
    REQUIRE(read);
    const Part& part = read.value();
    const BrakeResult result = planOnBrake(part, shop.value(), 0, PlanOptions{});
    REQUIRE(result.verdict == Verdict::kFeasible);
    int over_bends = 0;
    for (const Plan& plan : result.plans) {
        std::map<PanelId, double> told_mm;  // by the child of each bend that is formed
        for (const FoldStep& step : plan.folds) {
            REQUIRE(step.gauge_stop);
            const GaugeStop& stop = *step.gauge_stop;
            if (stop.touch == GaugeStop::Touch::kFace) {
                ++over_bends;
                CHECK(stop.tolerance_mm > told_mm.at(stop.panel) + shop.value().tolerances.bend_line_mm);
            }
            for (const BendId bend : step.bends()) told_mm[part.bend(bend).child] = stop.tolerance_mm;
        }
    }
    CHECK(over_bends > 0);
}

}  // namespace tinwright::test
