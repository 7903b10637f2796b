// SPDX-License-Identifier: GPL-3.0-or-later
// Getting bars and part out again: piece by piece under lips, only tilted, and bars between standing walls with and
// without end relief.
#include <algorithm>

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <tinwright/fold/engine/fold_engine.h>
#include <tinwright/verify/replay/verify.h>

#include "../one_vee.h"
#include "plan_support.h"

namespace tinwright::test {

namespace {

std::string bar(const std::string& id, double width_mm, double depth_mm, const std::string& more = "") {
    return fmt::format(R"({{"id":"{}","width":{},"clamp_depth":{},"height":25,"nose_angle_deg":45{}}})", id, width_mm,
                       depth_mm, more);
}

std::string folder(const std::string& bars, const std::string& limits, const std::string& clamp) {
    return fmt::format(
        R"({{"format":"tinwright-shop/1","units":"mm","name":"shop","brakes":[{{"name":"folder","length":900,)"
        R"("max_leaf_angle_deg":135,"leaf_faces":[{{"name":"full","reach":25,"thickness":12}}],"nose_radius":1,)"
        R"("bed":[[0,0],[0,-50],[110,-50],[110,0]],{},"bars":[{}]}}],"limits":{{{}}}}})",
        clamp, bars, limits);
}

const char* const kLoose = R"("above":"nothing","clamp":"loose-bars","overhang":"both")";

TryResult tryNames(const Part& part, const Shop& shop, const std::vector<std::string>& names) {
    std::vector<std::vector<BendId>> order;
    for (const std::string& name : names) order.push_back({bendNamed(part, name)});
    return tryOrder(part, shop, 0, order, 0);
}

std::string allReasons(const TryResult& result) {
    std::string text;
    for (const TriedStep& step : result.steps) text += codesOf(step.reasons);
    return text;
}

const std::vector<std::string> kLipsFirst{"lip_left",  "lip_right",  "lip_front",  "lip_back",
                                          "wall_left", "wall_right", "wall_front", "wall_back"};

}  // namespace

TEST_CASE("under four lips a string comes out piece by piece, the middle piece first; one long bar is locked in") {
    const Part part = partFrom(trayRecipe(200, 150, 50, 10));
    const std::string long_bars = bar("B260", 260, 100) + "," + bar("B141", 141, 100);
    // too deep to pass one another: three pieces for the width of 197: the middle one is clear of both lips
    const Shop pieces = shopFrom(folder(
        long_bars + "," + bar("B70a", 70, 100) + "," + bar("B50", 50, 100) + "," + bar("B70b", 70, 100), "", kLoose));
    const TryResult goes = tryNames(part, pieces, kLipsFirst);
    CAPTURE(allReasons(goes));
    REQUIRE(goes.verdict == Verdict::kFeasible);
    const FoldStep& last = goes.plan.folds.back();
    REQUIRE(last.tools.size() == 3);
    REQUIRE(last.tools_out.size() == 3);
    CHECK(last.tools_out.front() == 1);
    CHECK(last.tools_in.back() == 1);

    // one bar of 192 in its place, under the lips of all four walls
    const Shop one = shopFrom(folder(long_bars + "," + bar("B192", 192, 125), "", kLoose));
    const TryResult locked = tryNames(part, one, kLipsFirst);
    CHECK(locked.verdict == Verdict::kInfeasible);
    REQUIRE_FALSE(locked.steps.empty());
    CHECK(std::any_of(locked.steps.back().reasons.begin(), locked.steps.back().reasons.end(),
                      [](const Reason& reason) { return reason.code == ReasonCode::kTrapped; }));
}

// A box on a finger brake whose back wall is taller than the fingers lift: it cannot be drawn straight out, its pieces
// may not be loosened and nothing hangs past the ends; lifted and tilted it comes out from under the fingers.
TEST_CASE("a part that leaves only tilted") {
    const std::string recipe =
        R"({"format":"tinwright-part/1","units":"mm","name":"channel with a low front","sheet":{"material":"mild-steel","thickness":1.5},)"
        R"("allowance":{"rule":"k-factor","k":0.44},"inside_radius":1,"measured":"outside",)"
        R"("base":{"name":"floor","width":300,"depth":120},)"
        R"("flanges":[{"name":"front","on":"floor.front","length":20},{"name":"back","on":"floor.back","length":45}]})";
    const Part part = partFrom(recipe);
    const std::string clamp =
        R"("above":{"beam_height":90,"beam_front":30},"clamp":"on-beam","opening":40,"pieces_out_in_place":false,"overhang":"none")";
    const Shop shop = shopFrom(folder(
        fmt::format(R"({{"id":"F300","width":300,"clamp_depth":40,"height":90,"nose_angle_deg":45,"toe_height":30}})"),
        "", clamp));
    const TryResult result = tryNames(part, shop, {"back", "front"});
    CAPTURE(allReasons(result));
    REQUIRE(result.verdict == Verdict::kFeasible);
    const FoldStep& last = result.plan.folds.back();
    REQUIRE_FALSE(last.way_out.empty());
    CHECK(last.way_out.back().kind == ExitMove::Kind::kPartTilted);
    const auto& path = last.way_out.back().path;
    CHECK(std::any_of(path.begin(), path.end(), [](const ExitMove::Point& point) { return point.tilt_deg != 0; }));
}

// Largest string between standing walls = inside width - 2·max(0, r - end relief) (geometry): a square lower corner
// rides up the fillet. Nose radius 3, walls 100 apart inside: square bars to 94, bars with 3 mm of relief to 100, less
// the plus side. A corner that goes x past the fillet's start is lifted by 3 - sqrt(9 - x^2), by the contact tolerance
// of 0.05 mm at 0.545: bars to 95.09 - 0.2 only touch.
TEST_CASE("a bar between standing walls meets their inside radius unless its ends are relieved") {
    const std::string recipe =
        R"({"format":"tinwright-part/1","units":"mm","name":"tray","sheet":{"material":"mild-steel","thickness":1.5},)"
        R"("allowance":{"rule":"k-factor","k":0.44},"inside_radius":3,"measured":"inside",)"
        R"("base":{"name":"floor","width":100,"depth":150},"flanges":[{"name":"left","on":"floor.left","length":40},)"
        R"({"name":"right","on":"floor.right","length":40},{"name":"front","on":"floor.front","length":40}],)"
        R"("corners":[{"between":["left","front"],"type":"open","gap":4},{"between":["front","right"],"type":"open","gap":4}]})";
    const Part part = partFrom(recipe);
    const auto goesWith = [&](double width_mm, double relief_mm) {
        CAPTURE(width_mm, relief_mm);
        const std::string relief =
            relief_mm > 0 ? fmt::format(R"(,"end_relief":{{"length":{},"height":{}}})", relief_mm, relief_mm + 1) : "";
        std::string text = folder(bar("long", 300, 60) + "," + bar("across", width_mm, 60, relief),
                                  R"("uncovered_end":6,"plus_side":0.2,"bar_gap":2,"clamped_land":30)", kLoose);
        text.replace(text.find(R"("nose_radius":1)"), 15, R"("nose_radius":3)");
        const Shop shop = shopFrom(text);
        const TryResult result = tryNames(part, shop, {"left", "right", "front"});
        CAPTURE(allReasons(result));
        return result.verdict == Verdict::kFeasible;
    };
    CHECK(goesWith(93.7, 0));
    CHECK(goesWith(94.7, 0));
    CHECK_FALSE(goesWith(95, 0));
    CHECK_FALSE(goesWith(97, 0));
    CHECK(goesWith(97, 3));
    CHECK(goesWith(99.7, 3));
    CHECK_FALSE(goesWith(100.2, 3));
}

// Floor 150 deep inside, its back wall standing with a fillet of 3: from 147 on a bar's back edge comes up on it, by 3
// - sqrt(9 - x^2): by 0.04 mm at 0.49, 0.17 at 1 (geometry).
TEST_CASE(
    "A bar so deep that a wall's fillet behind it lifts it is told so, with its depth; one that only touches goes") {
    const Part part = partFrom(
        R"({"format":"tinwright-part/1","units":"mm","name":"channel","sheet":{"material":"mild-steel","thickness":1.5},)"
        R"("allowance":{"rule":"k-factor","k":0.44},"inside_radius":3,"measured":"inside",)"
        R"("base":{"name":"floor","width":100,"depth":150},"flanges":[{"name":"back","on":"floor.back","length":40},)"
        R"({"name":"front","on":"floor.front","length":40}]})");
    const auto tried = [&](double depth_mm) {
        std::string text = folder(bar("deep", 100, depth_mm), "", kLoose);
        text.replace(text.find(R"("nose_radius":1)"), 15, R"("nose_radius":3)");
        const Shop shop = shopFrom(text);
        const BrakeInSetup brake = inUse(part, shop.brakes[0]);
        FoldEngine engine(part, shop, brake);
        const Stroke front{bit(bendNamed(part, "front")), Side::kParent};
        const BendMask formed = bit(bendNamed(part, "back"));
        if (engine.check(formed, front).answer == StrokeAnswer::kPossible) return std::string("goes");
        return wordsOf(part, shop, brake, engine.explain(formed, front));
    };
    CHECK(tried(146.9) == "goes");
    CHECK(tried(147.3) == "goes");
    for (const double depth_mm : {148.0, 149.0}) {
        const std::string told = tried(depth_mm);
        CHECK_THAT(told, Catch::Contains("bend back hits the bar at about 0") &&
                             Catch::Contains(fmt::format("the bar's depth of {} mm against the fillet", depth_mm)) &&
                             !Catch::Contains(" 0.0 mm"));
    }
}

// The finger brake's frames stand at both ends: a finger that is loosened between walls cannot be slid out past them.
TEST_CASE("fingers do not slide through the frames at the machine's ends") {
    const Part part = partFrom(
        R"({"format":"tinwright-part/1","units":"mm","name":"wide","sheet":{"material":"mild-steel","thickness":1.2},)"
        R"("allowance":{"rule":"k-factor","k":0.42},"inside_radius":1.92,"measured":"inside",)"
        R"("base":{"name":"web","width":1479.2,"depth":525.6},)"
        R"("flanges":[{"name":"left","on":"web.left","length":40.4,"angle":45},)"
        R"({"name":"right","on":"web.right","length":14.8,"angle":120,"from_left":8.8,"from_right":2.8},)"
        R"({"name":"lip","on":"right.far","length":29.1,"angle":45,"direction":"down"}]})");
    const Shop& shop = shippedShop();
    static_cast<void>(planVerified(part, shop, brakeNamed(shop, "B"), 2));
}

// Worked by hand: 197 by 147 inside under lips that leave 180 by 130 open, two bars 97 wide and 50 deep side by side:
// one is drawn back by its depth, slid behind the other until no lip is over it, and lifted.
TEST_CASE("One bar is drawn back, slid behind the other and lifted out between the lips") {
    const Part part = partFrom(trayRecipe(200, 150, 50, 10));
    const std::string long_bars = bar("B260", 260, 50) + "," + bar("B141", 141, 50);
    const Shop pair = shopFrom(folder(long_bars + "," + bar("B97a", 97, 50) + "," + bar("B97b", 97, 50), "", kLoose));
    const TryResult goes = tryNames(part, pair, kLipsFirst);
    CAPTURE(allReasons(goes));
    REQUIRE(goes.verdict == Verdict::kFeasible);
    const FoldStep& last = goes.plan.folds.back();
    REQUIRE(last.tools.size() == 2);
    const ExitMove& first_out = last.way_out.front();
    CHECK(first_out.kind == ExitMove::Kind::kPieceRound);
    REQUIRE(first_out.path.size() == 3);
    CHECK(first_out.path[0].y_mm == Approx(50).margin(1));  // back
    CHECK(std::abs(first_out.path[1].x_mm) > 5);            // along
    CHECK(first_out.path[2].z_mm > 1000);                   // up
    for (const ReplayFinding& finding :
         verifyPlan(part, pair, inSetup(pair.brakes[0], part.thickness_mm), goes.plan, 0))
        FAIL_CHECK(finding.words);
    // Bars as deep as the tray cannot pass one another.
    const Shop deep = shopFrom(folder(long_bars + "," + bar("B97a", 97, 100) + "," + bar("B97b", 97, 100), "", kLoose));
    CHECK(tryNames(part, deep, kLipsFirst).verdict == Verdict::kInfeasible);
}

}  // namespace tinwright::test
