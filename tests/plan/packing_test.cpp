// SPDX-License-Identifier: GPL-3.0-or-later
// Hems first, walls after: a closed hem hangs under the sheet, and strips as thick as it pack the sheet up on bed and
// leaf (common practice). What the strips do to the hinge is worked by hand beside each; sheet 1, nose radius 1, set
// angle 93°, k 0.44: a strip of 2.262.
#include <cmath>

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <tinwright/brake/machines/packing.h>
#include <tinwright/brake/plan/plan_time.h>
#include <tinwright/fold/engine/fold_engine.h>
#include <tinwright/verify/replay/verify.h>

#include "plan_support.h"

namespace tinwright::test {

namespace {

Shop folder(const std::string& more = "", const std::string& rest = "") {
    return shopFrom(fmt::format(
        R"({{"format":"tinwright-shop/1","units":"mm","name":"shop","brakes":[{{"name":"folder","length":900,)"
        R"("max_leaf_angle_deg":135,"leaf_faces":[{{"name":"full","reach":25,"thickness":12}}],"nose_radius":1,)"
        R"("bed":[[0,0],[0,-50],[110,-50],[110,0]],"above":"nothing","clamp":"loose-bars","overhang":"both",)"
        R"("hem_thickness":1,{}"bars":[{{"id":"long","width":300,"clamp_depth":50,"height":25,"nose_angle_deg":45}}]}}]{}}})",
        more, rest));
}

// A wall with a hem on its outside, open at both ends: "rim" folds down where "wall" folds up.
Part hemmedWall(double wall_mm, double gap_mm = 0, double return_mm = 8) {
    return partFrom(fmt::format(
        R"({{"format":"tinwright-part/1","units":"mm","name":"hemmed-wall","sheet":{{"material":"mild-steel","thickness":1}},)"
        R"("allowance":{{"rule":"k-factor","k":0.44}},"inside_radius":1,"measured":"outside",)"
        R"("base":{{"name":"floor","width":200,"depth":100}},"flanges":[{{"name":"wall","on":"floor.front","length":{}}},)"
        R"({{"name":"rim","on":"wall.far","length":{},"direction":"down","hem":{{"gap":{}}}}}]}})",
        wall_mm, return_mm, gap_mm));
}

// The wall with its hem closed already.
TryResult wallAfterHem(const Part& part, const Shop& shop) {
    return tryOrder(part, shop, 0, {{bendNamed(part, "wall")}}, bit(bendNamed(part, "rim")));
}

// With the floor held.
bool goes(const Part& part, const Shop& shop) {
    FoldEngine engine(part, shop, inSetup(shop.brakes[0], part.thickness_mm));
    const Stroke stroke{bit(bendNamed(part, "wall")), Side::kParent};
    return engine.check(bit(bendNamed(part, "rim")), stroke).answer == StrokeAnswer::kPossible;
}

const Packing& packingOf(const TryResult& result) {
    REQUIRE(result.verdict == Verdict::kFeasible);
    REQUIRE(result.plan.folds.front().packing);
    return *result.plan.folds.front().packing;
}

}  // namespace

TEST_CASE("Hems first, walls after: the sheet is packed up by a strip as thick as the hem, on bed and leaf") {
    const Part part = hemmedWall(22);
    const TryResult result = wallAfterHem(part, folder());
    const Packing& packing = packingOf(result);
    CHECK(packing.height_mm == Approx(1));
    CHECK(packing.on_leaf);
    CHECK(packing.setback_mm == Approx(2));  // that of a sheet of 2
    CHECK_FALSE(packing.on_bed_mm);
    REQUIRE(packing.on_leaf_mm);
    // Flat the wall's panel is 22 - 1 - 1 = 20 less half the closed hem's own 1.57/2 from the strip's end to the hem's
    // line; its fold stands out by 1, and its return ends 8 from the outside of it.
    CHECK(*packing.on_leaf_mm > 8);
    CHECK(*packing.on_leaf_mm < 20 - 8 + 2);

    // The wall first needs none.
    const TryResult wall_first = tryOrder(part, folder(), 0, {{bendNamed(part, "wall")}}, 0);
    REQUIRE(wall_first.verdict == Verdict::kFeasible);
    CHECK_FALSE(wall_first.plan.folds.front().packing);
}

TEST_CASE("Every order of a tray with hems on the outside of its walls goes, packed up where hems were first") {
    const Part part = partFrom(
        R"({"format":"tinwright-part/1","units":"mm","name":"hemmed-tray","sheet":{"material":"mild-steel","thickness":1},
        "allowance":{"rule":"k-factor","k":0.44},"inside_radius":1,"measured":"outside",
        "base":{"name":"floor","width":200,"depth":120},"flanges":[{"name":"front","on":"floor.front","length":24},
        {"name":"rim_front","on":"front.far","length":8,"direction":"down","hem":{"gap":0}},
        {"name":"back","on":"floor.back","length":24},
        {"name":"rim_back","on":"back.far","length":8,"direction":"down","hem":{"gap":0}}]})");
    const BrakeResult result = planVerified(part, folder(), 0, 24);
    REQUIRE(result.verdict == Verdict::kFeasible);
    const std::vector<BendId> hems{bendNamed(part, "rim_front"), bendNamed(part, "rim_back")};
    const std::vector<BendId> walls{bendNamed(part, "front"), bendNamed(part, "back")};
    const TryResult hems_first = tryOrder(part, folder(), 0, {{hems[0]}, {hems[1]}, {walls[0]}, {walls[1]}}, 0);
    REQUIRE(hems_first.verdict == Verdict::kFeasible);
    int packed = 0;
    for (const FoldStep& fold : hems_first.plan.folds) packed += fold.packing ? 1 : 0;
    CHECK(packed == 2);
}

// An open hem with a gap of 0.6 hangs 1.6 under the sheet: one offcut is too thin.
TEST_CASE("A hem that stands open is packed by as many offcuts as it hangs, no more than four") {
    const TryResult open = wallAfterHem(hemmedWall(26, 0.6), folder());
    CHECK(packingOf(open).height_mm == Approx(2));
    CHECK(packingOf(open).setback_mm == Approx(3));
    CHECK(packingHeights_mm(hemmedWall(30, 3)) == std::vector<double>{4});
    CHECK(packingHeights_mm(hemmedWall(30, 3.2)).empty());
    CHECK(packingStrips(4, 1) == 4);
}

// With the hinge 1 under the packing the leaf presses (1 + 1 + 1)(1 - cos 93°) - (1 + s) sin 93° into the sheet: 1.16
// at a setback of 1, and 0.16 at one of 2, which is usual there. Half a tenth only touches.
TEST_CASE("A setback that cannot follow the packing lets the leaf jam, unless its hinge gives way") {
    const Part part = hemmedWall(22);
    CHECK_FALSE(goes(part, folder(R"("setback":1,)")));
    CHECK_FALSE(goes(part, folder(R"("setback":1,"hinge_gives":1.05,)")));
    CHECK(goes(part, folder(R"("setback":1,"hinge_gives":1.15,)")));
    CHECK_FALSE(goes(part, folder(R"("setback":{"least":0.5,"most":1},)")));
    CHECK(goes(part, folder(R"("setback":{"least":0.5,"most":2},)")));
    CHECK(packingOf(wallAfterHem(part, folder(R"("setback":{"least":0.5,"most":2},)"))).setback_mm == Approx(2));
}

// The leaf's strip begins B = (2 + 1) - 2.262 = 0.74 past the bend's strip, and ends up (2 + 1) cos 93° - 3 sin 93° =
// -3.15 from there: to carry a land of 2 all through it is 0.74 + 2 + 3.15 = 5.89 wide.
// A hem under what is held, none under what swings: the bed alone is packed up, and the setback stays. At 60° the leaf,
// 1 lower, would stand off by 3 cos 63° + 2 sin 63° - 2 = 1.14: it is set further.
TEST_CASE("Under the held side alone the bed is packed up and the setback stays") {
    const auto channel = [](double angle_deg) {
        return partFrom(fmt::format(
            R"({{"format":"tinwright-part/1","units":"mm","name":"channel","sheet":{{"material":"mild-steel","thickness":1}},)"
            R"("allowance":{{"rule":"k-factor","k":0.44}},"inside_radius":1,"measured":"outside",)"
            R"("base":{{"name":"floor","width":200,"depth":60}},"flanges":[{{"name":"wall","on":"floor.front","length":20,)"
            R"("angle":{}}},{{"name":"rim","on":"floor.back","length":8,"direction":"down","hem":{{"gap":0}}}}]}})",
            angle_deg));
    };
    for (const char* setback : {R"("setback":1,)", ""}) {
        const Part part = channel(90);
        FoldEngine engine(part, folder(setback), inSetup(folder(setback).brakes[0], 1));
        const Stroke stroke{bit(bendNamed(part, "wall")), Side::kParent};
        const BendMask formed = bit(bendNamed(part, "rim"));
        const StrokeResult result = engine.check(formed, stroke);
        REQUIRE(result.answer == StrokeAnswer::kPossible);
        const FoldStep step = engine.describe(formed, stroke, result);
        REQUIRE(step.packing);
        CHECK_FALSE(step.packing->on_leaf);
        CHECK(step.packing->setback_mm == Approx(1));
        CHECK(step.packing->on_bed_mm.value_or(50) > 40);
        CHECK(step.leaf_angle.deg() == Approx(93));
    }
    const Shop shop = folder(R"("setback":1,)");
    const Part open = channel(60);
    const TryResult result = wallAfterHem(open, shop);
    REQUIRE(result.verdict == Verdict::kFeasible);
    CHECK(verifyPlan(open, shop, result.brake, result.plan, bit(bendNamed(open, "rim"))).empty());
}

TEST_CASE("A hem so near the bend that no packing lies beside it keeps the wall from being folded") {
    const Shop shop = folder();
    const double room_mm = packingOf(wallAfterHem(hemmedWall(22), shop)).on_leaf_mm.value();
    const double least_mm = 22 - (room_mm - 5.89);
    CHECK(goes(hemmedWall(least_mm + 0.15), shop));
    CHECK_FALSE(goes(hemmedWall(least_mm - 0.15), shop));
}

TEST_CASE("Where the sheet cannot be packed up over a hem it is told why") {
    const auto why = [](const Part& part, const Shop& shop) {
        FoldEngine engine(part, shop, inSetup(shop.brakes[0], 1));
        return engine.explain(bit(bendNamed(part, "rim")), {bit(bendNamed(part, "wall")), Side::kParent}).at(0);
    };
    const Part part = hemmedWall(22);
    const Shop fixed = folder(R"("setback":1,)");
    const Reason jams = why(part, fixed);
    REQUIRE(jams.not_packed);
    CHECK(jams.not_packed->height_mm == Approx(1));
    CHECK(jams.not_packed->presses_mm == Approx(3 * (1 - std::cos(93 * M_PI / 180)) - 2 * std::sin(93 * M_PI / 180)));
    CHECK(
        wordsOf(part, fixed, inSetup(fixed.brakes[0], 1), {jams}).find("packed up 1 mm the leaf would press 1.2 mm") !=
        std::string::npos);
    const Reason no_room = why(hemmedWall(12), folder());
    REQUIRE(no_room.not_packed);
    CHECK(no_room.not_packed->presses_mm == 0);
}

TEST_CASE("Packing takes the shop's time for it, in the plan as on the card") {
    const Part part = hemmedWall(22);
    const Shop shop = folder("", R"(,"times":{"packing_s":77})");
    const TryResult result = wallAfterHem(part, shop);
    const std::vector<FoldActions> actions = foldActions(result.brake, result.plan.folds);
    CHECK(actions.front().packed);
    const TimeShares shares = timeShares_ms(shop.times, actions.front());
    CHECK(shares[static_cast<std::size_t>(TimeShare::kPacking)] == 77'000);
    // The wall's leaf and bars leave no other order.
    const auto cost_ms = [&](const char* times) {
        return planVerified(part, folder("", times), 0, 1).plans.at(0).cost_ms;
    };
    CHECK(cost_ms(R"(,"times":{"packing_s":900})") - cost_ms(R"(,"times":{"packing_s":0})") == 900'000);
}

TEST_CASE("The replay finds packing that is left out, too thin, told too wide, or at another setback") {
    const Part part = hemmedWall(22);
    const Shop shop = folder();
    const TryResult result = wallAfterHem(part, shop);
    const BendMask formed = bit(bendNamed(part, "rim"));
    const auto finds = [&](auto change) {
        Plan plan = result.plan;
        change(plan.folds.front());
        plan.cost_ms = 0;
        return !verifyPlan(part, shop, result.brake, plan, formed).empty();
    };
    CHECK_FALSE(finds([](FoldStep&) {}));
    CHECK(finds([](FoldStep& fold) { fold.packing.reset(); }));
    CHECK(finds([](FoldStep& fold) { fold.packing->height_mm = 0.5; }));
    CHECK(finds([](FoldStep& fold) { fold.packing->setback_mm = 1; }));
    CHECK(finds([](FoldStep& fold) {
        fold.packing->on_leaf = false;
        fold.packing->setback_mm = 1;
    }));
    CHECK(finds([](FoldStep& fold) { fold.packing->on_leaf_mm = *fold.packing->on_leaf_mm + 1; }));
    CHECK(finds([](FoldStep& fold) { fold.packing->on_leaf_mm.reset(); }));
}

}  // namespace tinwright::test
