// SPDX-License-Identifier: GPL-3.0-or-later
// The leaf is as long as the machine: it lifts held sheet that sticks out past the nose line beside an inset tab.
#include <fmt/format.h>
#include <catch2/catch.hpp>

#include "plan_support.h"

namespace tinwright::test {

namespace {

// A plate 200 x 100 with a tab 40 wide at the bottom of a notch in its front edge. `left` and `right` are the widths of
// sheet that stay in front beside the notch; the notch is 10 deep.
std::string insetTab(double left_mm, double right_mm) {
    std::string outline;
    const auto point = [&](double x, double y, const char* edge) {
        outline += fmt::format("{}{{\"x\":{},\"y\":{}{}}}", outline.empty() ? "" : ",", x, y,
                               *edge ? fmt::format(",\"edge\":\"{}\"", edge) : "");
    };
    if (left_mm > 0) {
        point(0, 0, "");
        point(left_mm, 0, "");
        point(left_mm, 10, "seat");
    } else {
        point(0, 10, "seat");
    }
    if (right_mm > 0) {
        point(200 - right_mm, 10, "");
        point(200 - right_mm, 0, "");
        point(200, 0, "");
    } else {
        point(200, 10, "");
    }
    point(200, 100, "");
    point(0, 100, "");
    return fmt::format(
        R"({{"format":"tinwright-part/1","units":"mm","name":"inset tab","sheet":{{"material":"mild-steel","thickness":1.5}},)"
        R"("allowance":{{"rule":"k-factor","k":0.44}},"inside_radius":1,"measured":"outside",)"
        R"("base":{{"name":"plate","outline":[{}]}},"flanges":[{{"name":"tab","on":"plate.seat","length":30,"width":40}}]}})",
        outline);
}

// Holding the tab is no way out of it: the tab's own land is too shallow for these limits.
Shop shopWith(const char* overhang) {
    return shopFrom(fmt::format(
        R"({{"format":"tinwright-shop/1","units":"mm","name":"one folder","brakes":[{{"name":"folder","length":600,)"
        R"("max_leaf_angle_deg":135,"leaf_faces":[{{"name":"full","reach":25,"thickness":12}}],"nose_radius":1,)"
        R"("bed":[[0,0],[0,-50],[110,-50],[110,0]],"above":"nothing","clamp":"loose-bars","overhang":"{}",)"
        R"("bars":[{{"id":"B40","width":40,"clamp_depth":60,"height":25,"nose_angle_deg":45}},)"
        R"({{"id":"B200","width":200,"clamp_depth":60,"height":25,"nose_angle_deg":45}}]}}],)"
        R"("limits":{{"clamped_land":40}}}})",
        overhang));
}

}  // namespace

TEST_CASE("a tab inset between two arms of held sheet cannot be folded: the leaf lifts the arms") {
    const BrakeResult result = planVerified(partFrom(insetTab(60, 60)), shopWith("both"), 0);
    CAPTURE(codesOf(result.reasons));
    CHECK(result.verdict == Verdict::kInfeasible);
    CHECK(hasReason(result, ReasonCode::kLeafLiftsHeld));
}

TEST_CASE("the same tab with sheet beside it on one side only is folded hanging off the end of the machine") {
    const Part part = partFrom(insetTab(0, 60));
    const BrakeResult result = planVerified(part, shopWith("both"), 0);
    CAPTURE(codesOf(result.reasons));
    REQUIRE(result.verdict == Verdict::kFeasible);
    CHECK(result.plans.front().folds.front().overhang_mm != 0);
    // and not where end frames keep parts from hanging out
    const BrakeResult framed = planVerified(part, shopWith("none"), 0);
    CHECK(framed.verdict == Verdict::kInfeasible);
    CHECK_FALSE(framed.reasons.empty());
}

TEST_CASE(
    "the same tab with the notch cut so deep that no sheet is left in front of the nose line beside it is folded") {
    const BrakeResult result = planVerified(partFrom(insetTab(0, 0)), shopWith("none"), 0);
    CAPTURE(codesOf(result.reasons));
    REQUIRE(result.verdict == Verdict::kFeasible);
    CHECK(result.plans.front().folds.front().overhang_mm == 0);
}

}  // namespace tinwright::test
