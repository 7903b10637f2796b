// SPDX-License-Identifier: GPL-3.0-or-later
// Shapes whose limit on a press brake a hand calculation knows: on either side of it, and for the stated reason.
#include <cmath>

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <tinwright/fold/engine/fold_engine.h>
#include <tinwright/io/shop/shop_io.h>

#include "../one_vee.h"
#include "plan_support.h"

namespace tinwright::test {

namespace {

using Catch::Matchers::Contains;

constexpr double kThickness_mm = 1.5;
constexpr double kVee_mm = 12;
constexpr double kRadius_mm = 0.16 * kVee_mm;

Shop pressShop(const std::string& punches) {
    const Result<Shop> read =
        readShop(std::string(TINWRIGHT_SOURCE_DIR) + "/tests/plan/data/press-" + punches + ".json");
    REQUIRE(read);
    Shop shop = read.value();
    for (const Vee& vee : veesOf(shop.brakes[0])) {
        if (vee.opening_mm != kVee_mm) continue;
        shop.brakes[0] = test::onlyVee(shop.brakes[0], vee);
        return shop;
    }
    FAIL("no V of 12");
    return shop;
}

Part sheetOf(const std::string& name, double width_mm, double depth_mm, const std::string& flanges,
             const std::string& corners = "") {
    return partFrom(fmt::format(
        R"({{"format":"tinwright-part/1","units":"mm","name":"{}","sheet":{{"material":"mild-steel","thickness":{}}},)"
        R"("allowance":{{"rule":"k-factor","k":0.42}},"inside_radius":{},"measured":"outside",)"
        R"("base":{{"name":"web","width":{},"depth":{}}},"flanges":[{}],"corners":[{}]}})",
        name, kThickness_mm, kRadius_mm, width_mm, depth_mm, flanges, corners));
}

std::string flange(const std::string& name, const std::string& on, double length_mm, bool up = true) {
    return fmt::format(R"({{"name":"{}","on":"{}","length":{},"direction":"{}"}})", name, on, length_mm,
                       up ? "up" : "down");
}

Part box(double width_mm, double depth_mm, double height_mm) {
    std::string flanges;
    std::string corners;
    const char* const sides[] = {"front", "right", "back", "left"};
    for (int i = 0; i < 4; ++i) {
        flanges +=
            (i > 0 ? "," : "") + flange(fmt::format("wall_{}", sides[i]), fmt::format("web.{}", sides[i]), height_mm);
        corners += fmt::format(R"({}{{"between":["wall_{}","wall_{}"],"type":"open","gap":2}})", i > 0 ? "," : "",
                               sides[i], sides[(i + 1) % 4]);
    }
    return sheetOf("box", width_mm, depth_mm, flanges, corners);
}

Part channel(double web_mm, double leg_mm) {
    return sheetOf("channel", 200, web_mm,
                   flange("left", "web.front", leg_mm) + "," + flange("right", "web.back", leg_mm));
}

bool anyHit(const std::vector<Reason>& reasons, BodyRef::Kind body) {
    return std::any_of(reasons.begin(), reasons.end(),
                       [&](const Reason& reason) { return reason.code == ReasonCode::kHit && reason.body == body; });
}

bool anyCode(const std::vector<Reason>& reasons, ReasonCode code) {
    return std::any_of(reasons.begin(), reasons.end(), [&](const Reason& reason) { return reason.code == code; });
}

}  // namespace

// The walls at the ends of the last bends lie on the web, which is turned by half of 93 degrees when the punch is down.
// A point of the web's half u past the end of the strip and g over the centre of the bend is then at y = u cos h - g
// sin h and z = t + r + u sin h + g cos h (the centre of an air bend's arc lies r over the punch's tip, which is at z =
// t). The top edge of a wall, at g, so crosses the front of the adapter, y = a, at t + r + a tan h + g / cos h, and may
// not reach its seat at t + p: g < cos h (p - r - a tan h). The outside height is g + r + t.
TEST_CASE("a four-sided box as high as the punches allow goes, a tenth higher its walls meet the ram") {
    Shop shop = pressShop("straight");
    const double punch_mm = 65;    // tip to seat
    const double adapter_mm = 20;  // half of its width
    const double half = 0.5 * (90 + shop.overbendFor_deg("mild-steel", shop.brakes[0])) * std::acos(-1.0) / 180;
    const double limit_mm =
        std::cos(half) * (punch_mm - kRadius_mm - adapter_mm * std::tan(half)) + kRadius_mm + kThickness_mm;
    CAPTURE(limit_mm);
    const BrakeResult lower = planVerified(box(200, 160, limit_mm - 0.1), shop, 0);
    CHECK(lower.verdict == Verdict::kFeasible);
    CHECK(planVerified(box(200, 160, limit_mm + 0.1), shop, 0).verdict != Verdict::kFeasible);
    const BrakeResult higher = planVerified(box(200, 160, limit_mm + 0.15), shop, 0);  // contact of 0.05 mm is let pass
    CHECK(higher.verdict == Verdict::kInfeasible);
    CHECK(anyHit(higher.reasons, BodyRef::Kind::kRam));
}

// Common practice: a deep narrow channel runs into a straight punch, and goes with a gooseneck.
TEST_CASE("the plan of a channel too deep for a straight punch says what the leg hits; with goosenecks it goes") {
    const Part part = channel(50, 45);
    const BrakeResult straight = planVerified(part, pressShop("straight"), 0);
    CHECK(straight.verdict == Verdict::kInfeasible);
    CHECK((anyHit(straight.reasons, BodyRef::Kind::kRam) || anyHit(straight.reasons, BodyRef::Kind::kPunch)));
    CHECK(planVerified(part, pressShop("gooseneck"), 0).verdict == Verdict::kFeasible);
}

// The second bend of a Z has the first flange on the die's other side: its foot must still bear on the shoulder, 0.7 V
// from the bend (published chart).
TEST_CASE("a Z with a short middle leaves the shoulders of the V, a longer one does not") {
    const auto zed = [](double middle_mm) {
        return sheetOf("zed", 200, middle_mm,
                       flange("up", "web.front", 30) + "," + flange("down", "web.back", 30, false));
    };
    const Shop shop = pressShop("straight");
    CHECK(planVerified(zed(24), shop, 0).verdict == Verdict::kFeasible);
    const BrakeResult tight = planVerified(zed(0.7 * kVee_mm), shop, 0);
    CHECK(tight.verdict == Verdict::kInfeasible);
    CHECK_FALSE(tight.reasons.empty());
}

// Walls at both ends of the last bends let no string of these plain punches cover them, but one that ends in horns
// does.
TEST_CASE("a box goes with horned punches, and without them is refused for want of punches") {
    Shop with = pressShop("straight");
    for (Punch& punch : with.brakes[0].press().punches) {
        if (!punch.horn && punch.width_mm != 20) punch.count = 0;
    }
    Shop without = with;
    for (Punch& punch : without.brakes[0].press().punches) {
        if (punch.horn) punch.count = 0;
    }
    const Part part = box(130, 107, 15);
    CHECK(planVerified(part, with, 0).verdict == Verdict::kFeasible);
    const BrakeResult plain = planVerified(part, without, 0);
    INFO(codesOf(plain.reasons));
    CHECK(plain.verdict == Verdict::kInfeasible);
    CHECK(anyCode(plain.reasons, ReasonCode::kNoBars));
}

// Past 180 degrees less the angle of the V its flanks are in the way (geometry).
TEST_CASE("a bend sharper than the V allows is refused for that") {
    const Shop shop = pressShop("straight");
    const double vee_deg = shop.brakes[0].press().dies.front().vee.angle.deg();
    const double most_deg = 180 - vee_deg - shop.overbendFor_deg("mild-steel", shop.brakes[0]);
    const auto angle = [](double angle_deg) {
        return sheetOf("angle", 200, 60,
                       fmt::format(R"({{"name":"leg","on":"web.front","length":40,"angle":{}}})", angle_deg));
    };
    CHECK(planVerified(angle(most_deg - 0.2), shop, 0).verdict == Verdict::kFeasible);
    const BrakeResult sharper = planVerified(angle(most_deg + 0.2), shop, 0);
    CHECK(sharper.verdict == Verdict::kInfeasible);
    CHECK(anyCode(sharper.reasons, ReasonCode::kVeeAngle));
}

namespace {

/// A straight punch of 80 degrees on one V of 12 with another angle; bends of mild steel get this much more.
Shop oneVeeShop(double vee_deg, double overbend_deg, bool bottoming) {
    return shopFrom(fmt::format(
        R"({{"format":"tinwright-shop/1","units":"mm","name":"one V","brakes":[{{"machine":"press-brake","name":"press",)"
        R"("length":600,"force_kn":400,"open_height":250,"stroke":150,"bending":"{}",)"
        R"("ram":[[-45,0],[45,0],[45,600],[-45,600]],"bed":[[-30,0],[-30,-500],[30,-500],[30,0]],)"
        R"("punches":[{{"id":"P","height":65,"tip_radius":1.5,"tip_angle_deg":80,"body_width":16,"width":200,"count":2}}],)"
        R"("dies":[{{"id":"D","height":60,"angle_deg":{},"opening":12,"shoulder_radius":1.5,"body_width":28,"width":200,"count":2}}]}}],)"
        R"("overbend":{{"default_deg":{}}}}})",
        bottoming ? "bottoming" : "air", vee_deg, overbend_deg));
}

Part angleOf(double angle_deg) {
    return sheetOf("angle", 200, 60,
                   fmt::format(R"({{"name":"leg","on":"web.front","length":40,"angle":{}}})", angle_deg));
}

}  // namespace

// The sheet lies on the flanks at 180 degrees less the angle of the V (geometry): as far as that it may be pressed, and
// when it bottoms it always is.
TEST_CASE("A V at exactly its limit folds") {
    struct Limit {
        double vee_deg, bend_deg, overbend_deg;
    };
    for (const bool bottoming : {true, false}) {
        for (const Limit& at : {Limit{90, 90, 0}, Limit{90, 88, 2}, Limit{88, 90, 2}, Limit{87, 90, 3},
                                Limit{86.3, 91.6, 2.1}, Limit{84.1, 95.2, 0.7}}) {
            CAPTURE(bottoming, at.vee_deg, at.bend_deg, at.overbend_deg);
            const Shop shop = oneVeeShop(at.vee_deg, at.overbend_deg, bottoming);
            const BrakeResult result = planVerified(angleOf(at.bend_deg), shop, 0);
            INFO(wordsOf(angleOf(at.bend_deg), shop, result.brake, result.reasons));
            CHECK(result.verdict == Verdict::kFeasible);
            const BrakeResult more = planVerified(angleOf(at.bend_deg + 0.01), shop, 0);
            CHECK(more.verdict == Verdict::kInfeasible);
            CHECK(anyCode(more.reasons, ReasonCode::kVeeAngle));
        }
    }
}

// However the angles are rounded on their way from degrees: tenths of a degree that add up to what the V lets through.
TEST_CASE("rounding of an angle refuses no V at its limit") {
    for (int vee = 830; vee <= 1200; vee += 7) {
        const double vee_deg = 0.1 * vee;
        const double overbend_deg = 0.1 * (vee % 40);
        const Part part = angleOf(0.1 * (1800 - vee - vee % 40));
        const Shop shop = oneVeeShop(vee_deg, overbend_deg, false);
        FoldEngine engine(part, shop, test::inUse(part, shop.brakes[0]));
        CAPTURE(vee_deg, overbend_deg);
        CHECK(engine.check(0, {bit(bendNamed(part, "leg")), Side::kParent}).answer == StrokeAnswer::kPossible);
    }
}

// With an acute V and punch (30 and 28 degrees: common practice) the same sheet goes to 140 degrees in one fold.
TEST_CASE("acute tools bend well past a right angle") {
    const Shop shop = pressShop("acute");
    const auto angle = [](double angle_deg) {
        return sheetOf("angle", 200, 60,
                       fmt::format(R"({{"name":"leg","on":"web.front","length":40,"angle":{}}})", angle_deg));
    };
    for (const double angle_deg : {60.0, 90.0, 120.0, 140.0}) {
        CAPTURE(angle_deg);
        CHECK(planVerified(angle(angle_deg), shop, 0).verdict == Verdict::kFeasible);
    }
    const BrakeResult hem = planVerified(angle(178), shop, 0);
    CHECK(hem.verdict == Verdict::kInfeasible);
    CHECK(wordsOf(angle(178), shop, hem.brake, hem.reasons).find("draw it as a hem") != std::string::npos);
}

// The shipped side frames stand 1200 apart, 200 behind the bend line.
TEST_CASE("sheet deeper than the throat does not go between closed side frames") {
    Shop shop = pressShop("straight");
    PressBrake& press = shop.brakes[0].press();
    const double between_mm = press.frames_right_mm - press.frames_left_mm;
    const auto wide = [&](double width_mm) {
        return sheetOf("wide", width_mm, press.throat_mm + 60, flange("side", "web.front", press.throat_mm + 60));
    };
    CHECK(planVerified(wide(between_mm - 5), shop, 0).verdict == Verdict::kFeasible);
    const BrakeResult wider = planVerified(wide(between_mm + 5), shop, 0);
    INFO(codesOf(wider.reasons));
    CHECK(wider.verdict == Verdict::kInfeasible);
    CHECK_FALSE(wider.reasons.empty());
}

// Lips over a gooseneck let the part out to the front when the ram opens far enough for it to be tilted. Where it opens
// less the part comes off an end only, and where the ends are closed it is locked in.
TEST_CASE("a profile that closes round the punch is refused where it cannot come off an end") {
    const Part part = sheetOf("lipped", 200, 120,
                              flange("left", "web.front", 30) + "," + flange("right", "web.back", 30) + "," +
                                  flange("left_lip", "left.far", 14) + "," + flange("right_lip", "right.far", 14));
    Shop shop = pressShop("gooseneck");
    const BrakeResult open = planVerified(part, shop, 0);
    REQUIRE(open.verdict == Verdict::kFeasible);
    std::vector<std::vector<BendId>> order;
    for (const FoldStep& fold : open.plans.front().folds) order.push_back(fold.bends());
    const double opens_mm = shop.brakes[0].press().open_height_mm;
    shop.brakes[0].press().open_height_mm = 180;
    CHECK(planVerified(part, shop, 0).verdict == Verdict::kFeasible);
    shop.brakes[0].overhang_left = shop.brakes[0].overhang_right = false;
    shop.brakes[0].press().open_height_mm = opens_mm;
    CHECK(planVerified(part, shop, 0).verdict == Verdict::kFeasible);
    shop.brakes[0].press().open_height_mm = 180;
    CHECK(planVerified(part, shop, 0).verdict == Verdict::kInfeasible);
    const TryResult closed = tryOrder(part, shop, 0, order, 0);
    CHECK(closed.verdict == Verdict::kInfeasible);
    REQUIRE_FALSE(closed.steps.empty());
    CHECK(anyCode(closed.steps.back().reasons, ReasonCode::kTrapped));
}

}  // namespace tinwright::test
