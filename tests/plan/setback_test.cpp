// SPDX-License-Identifier: GPL-3.0-or-later
// How far the hinge of a leaf brake is from the nose line, and what comes of it: whether the leaf reaches the flange,
// whether it presses into the sheet, and to which angle it is set. Geometry worked by hand beside each; sheet 1.5 and
// nose radius 1 unless said.
#include <cmath>

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <tinwright/brake/machines/leaf_on_sheet.h>

#include "plan_support.h"

namespace tinwright::test {

namespace {

// One face of 25, no overhang limits, bars over all.
Shop folder(const std::string& setback, const std::string& limits = "", double length_mm = 900) {
    return shopFrom(fmt::format(
        R"({{"format":"tinwright-shop/1","units":"mm","name":"shop","brakes":[{{"name":"folder","length":{},)"
        R"("max_leaf_angle_deg":135,"leaf_faces":[{{"name":"full","reach":25,"thickness":12}}],"nose_radius":1,{}{})"
        R"("bed":[[0,0],[0,-50],[110,-50],[110,0]],"above":"nothing","clamp":"loose-bars","overhang":"both",)"
        R"("bars":[{{"id":"long","width":{},"clamp_depth":50,"height":25,"nose_angle_deg":45}}]}}],"limits":{{{}}}}})",
        length_mm, setback, setback.empty() ? "" : ",", length_mm, limits));
}

Part angle(double flange_mm, double thickness_mm = 1.5, double angle_deg = 90, double length_mm = 200) {
    return partFrom(fmt::format(
        R"({{"format":"tinwright-part/1","units":"mm","name":"angle","sheet":{{"material":"mild-steel","thickness":{}}},)"
        R"("allowance":{{"rule":"k-factor","k":0.44}},"inside_radius":1,"measured":"flat",)"
        R"("base":{{"name":"web","width":{},"depth":100}},"flanges":[{{"name":"leg","on":"web.front","length":{},"angle":{}}}]}})",
        thickness_mm, length_mm, flange_mm, angle_deg));
}

// Of the fold that holds the web.
std::vector<Reason> whyNot(const Part& part, const Shop& shop) {
    std::vector<Reason> kept;
    for (const Reason& reason : planVerified(part, shop, 0).reasons)
        if (reason.stroke.hold == Side::kParent) kept.push_back(reason);
    return kept;
}

double allowance_mm(const Part& part) { return part.bends.front().allowance_mm; }

}  // namespace

// Flat the flange ends at its length and the strip past the nose, the leaf begins at the setback: with a flange of 4
// and a land of 2 that are (setback + radius - strip + 2) - 4 too little.
TEST_CASE("A flange that does not reach onto the leaf is not folded, and is told by how much and which setback does") {
    const Part part = angle(4);
    const Shop shop = folder(R"("setback":8)");
    const std::vector<Reason> reasons = whyNot(part, shop);
    REQUIRE(reasons.size() == 1);
    CHECK(reasons[0].code == ReasonCode::kLeafShort);
    const double lacks_mm = 8 + 1 - allowance_mm(part) + 2 - 4;
    CHECK(reasons[0].depth_mm == Approx(lacks_mm).margin(0.02));
    REQUIRE(reasons[0].setback_mm);
    CHECK(*reasons[0].setback_mm == Approx(8 - lacks_mm).margin(0.02));
    // With that setback, and not with a fifth of a millimetre more, the web may be held.
    const auto goes = [&](double setback_mm) {
        const Shop with = folder(fmt::format(R"("setback":{})", setback_mm));
        return tryOrder(part, with, 0, {{BendId{0}}}, 0).verdict == Verdict::kFeasible;
    };
    CHECK(goes(*reasons[0].setback_mm - 0.02));
    CHECK_FALSE(goes(*reasons[0].setback_mm + 0.2));
}

// (thickness + radius)(1 - cos 93°) - (radius + setback) sin 93° = 4 · 1.0523 - 2.5 · 0.9986 = 1.71.
TEST_CASE("A setback under the sheet's thickness is refused unless the shop says that the hinge gives way") {
    const Part part = angle(30, 3);
    const std::vector<Reason> reasons = whyNot(part, folder(R"("setback":1.5)"));
    REQUIRE(reasons.size() == 1);
    CHECK(reasons[0].code == ReasonCode::kLeafJams);
    CHECK(reasons[0].depth_mm == Approx(1.71).margin(0.01));
    CHECK(planVerified(part, folder(R"("setback":3)"), 0).verdict == Verdict::kFeasible);
    CHECK(planVerified(part, folder(R"("setback":1.5,"hinge_gives":1.8)"), 0).verdict == Verdict::kFeasible);
    CHECK(planVerified(part, folder(R"("setback":1.5,"hinge_gives":1.6)"), 0).verdict == Verdict::kInfeasible);
}

// With a setback of 4 the leaf's face stands 5 sin 93° - 2.5 (1 - cos 93°) = 2.36 off the sheet; it begins 5 cos 93°
// - 2.5 sin 93° = -2.76 from the foot, so a flat of 20 is touched at its end after atan(2.36 / 22.76) = 5.9° more.
TEST_CASE("A leaf that stands off the sheet is set further than the sheet is to be bent") {
    const BrakeResult result = planVerified(angle(20), folder(R"("setback":4)"), 0);
    REQUIRE(result.verdict == Verdict::kFeasible);
    for (const Plan& plan : result.plans) {
        const FoldStep& step = plan.folds.front();
        CHECK(step.set_angle.deg() == Approx(93));
        if (step.stroke.hold == Side::kParent) CHECK(step.leaf_angle.deg() == Approx(93 + 5.92).margin(0.05));
    }
    // As usual it bears on the sheet.
    const BrakeResult usual = planVerified(angle(20), folder(""), 0);
    CHECK(usual.plans.front().folds.front().leaf_angle.deg() == Approx(93));
    // What it cannot swing it does not fold: 20 off take more than the leaf's 135.
    CHECK(planVerified(angle(20), folder(R"("setback":22)"), 0).verdict == Verdict::kInfeasible);
}

TEST_CASE("A setback that can be set is set to the sheet's thickness as far as it goes") {
    const Shop shop = folder(R"("setback":{"least":2,"most":4})");
    CHECK(inSetup(shop.brakes[0], 1.5).setback_mm() == 2);
    CHECK(inSetup(shop.brakes[0], 3).setback_mm() == 3);
    CHECK(inSetup(shop.brakes[0], 6).setback_mm() == 4);
}

TEST_CASE("A bend is no longer than bed and leaf unless the shop allows it past their ends") {
    CHECK(planVerified(angle(30, 1.5, 90, 200), folder("", "", 200), 0).verdict == Verdict::kFeasible);
    CHECK(planVerified(angle(30, 1.5, 90, 204), folder("", "", 200), 0).verdict == Verdict::kInfeasible);
    CHECK(planVerified(angle(30, 1.5, 90, 204), folder("", R"("past_machine":2.5)", 200), 0).verdict ==
          Verdict::kFeasible);
}

}  // namespace tinwright::test
