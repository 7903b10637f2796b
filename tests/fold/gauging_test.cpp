// SPDX-License-Identifier: GPL-3.0-or-later
// What lies against the fingers of a back gauge: known shapes worked out by hand.
#include <catch2/catch.hpp>

#include "../one_vee.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include <tinwright/fold/engine/fold_engine.h>
#include <tinwright/io/recipe/recipe_io.h>
#include <tinwright/io/shop/shop_io.h>
#include <tinwright/part/developing/develop.h>

using namespace tinwright;

namespace {

constexpr double kThickness_mm = 1.5;
constexpr double kRadius_mm = 1.92;                                                     // 0.16 of a V of 12
const double kStrip_mm = 0.5 * std::numbers::pi * (kRadius_mm + 0.42 * kThickness_mm);  // k-factor 0.42, 90 degrees
constexpr double kCorner_mm = kRadius_mm + kThickness_mm;  // from the outside corner back to where the bend begins

Shop pressShop() {
    const Result<Shop> read = readShop(TINWRIGHT_SOURCE_DIR "/tests/plan/data/press-straight.json");
    REQUIRE(read.ok());
    Shop shop = read.value();
    for (const Vee& vee : veesOf(shop.brakes[0])) {
        if (vee.opening_mm != 12) continue;
        shop.brakes[0] = test::onlyVee(shop.brakes[0], vee);
        return shop;
    }
    FAIL("no V of 12");
    return shop;
}

// Sizes outside. `flanges`: name, edge, length, direction.
Part sheet(double width_mm, double depth_mm, const std::string& flanges, double thickness_mm = kThickness_mm,
           double radius_mm = kRadius_mm) {
    const std::string recipe = fmt::format(
        R"({{"format":"tinwright-part/1","units":"mm","name":"sheet","sheet":{{"material":"mild-steel","thickness":{}}},)"
        R"("allowance":{{"rule":"k-factor","k":0.42}},"inside_radius":{},"measured":"outside",)"
        R"("base":{{"name":"web","width":{},"depth":{}}},"flanges":[{}]}})",
        thickness_mm, radius_mm, width_mm, depth_mm, flanges);
    const Result<Recipe> read = readRecipe(recipe, "recipe");
    INFO((read ? std::string() : toText(read.issues().front())));
    REQUIRE(read.ok());
    Result<Part> part = develop(read.value());
    INFO((part ? std::string() : toText(part.issues().front())));
    REQUIRE(part.ok());
    return std::move(part).value();
}

std::string flange(const char* name, const char* on, double length_mm, const char* direction = "up",
                   double angle_deg = 90) {
    return fmt::format(R"({{"name":"{}","on":"{}","length":{},"direction":"{}","angle":{}}})", name, on, length_mm,
                       direction, angle_deg);
}

BendId named(const Part& part, const std::string& name) {
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        if (part.bends[i].name == name) return idAt<BendId>(i);
    }
    FAIL("no bend " << name);
    return {};
}

constexpr Side kBaseSide = Side::kParent;  // the parent at the back
constexpr Side kFlangeSide = Side::kChild;

FoldStep fold(const Part& part, const Shop& shop, const std::vector<std::string>& formed, const std::string& bend,
              Side back) {
    FoldEngine engine(part, shop, test::inUse(part, shop.brakes[0]));
    BendMask state = 0;
    for (const std::string& name : formed) state |= bit(named(part, name));
    const Stroke stroke{bit(named(part, bend)), back};
    const StrokeResult result = engine.check(state, stroke);
    INFO(bend << " " << (result.code ? toText(*result.code) : ""));
    REQUIRE(result.answer == StrokeAnswer::kPossible);
    return engine.describe(state, stroke, result);
}

GaugeStop stopOf(const FoldStep& step) {
    REQUIRE(step.gauge_stop);
    CHECK_FALSE(step.gauge_trouble);
    return *step.gauge_stop;
}

}  // namespace

// Flat, the bend line lies half a strip in front of where the bend ends, and the outside size is a corner longer than
// the flat panel.
TEST_CASE("A flat sheet is gauged at its back edge: outside size less the corner, and half the strip") {
    const Shop shop = pressShop();
    const Part part = sheet(200, 100, flange("lip", "web.front", 30));
    const GaugeStop base = stopOf(fold(part, shop, {}, "lip", kBaseSide));
    CHECK(base.touch == GaugeStop::Touch::kEdge);
    CHECK(part.panel(base.panel).name == "web");
    CHECK(base.edge == "web.back");
    CHECK(base.isFlat());
    CHECK(base.distance_mm == Approx(100 - kCorner_mm + 0.5 * kStrip_mm).margin(1e-9));
    // 200 long: two fingers of 60, as far apart as may be.
    REQUIRE(base.fingers.size() == 2);
    CHECK(base.fingers[0].from_mm == Approx(0).margin(1e-3));
    CHECK(base.fingers[0].to_mm == Approx(60).margin(1e-3));
    CHECK(base.fingers[1].to_mm == Approx(200).margin(1e-3));
    // Fingers 15 high, the sheet at half their height, behind the die.
    CHECK(base.fingers_z_mm == Approx(0.75 - 7.5));

    const GaugeStop lip = stopOf(fold(part, shop, {}, "lip", kFlangeSide));
    CHECK(lip.edge == "lip.far");
    CHECK(lip.distance_mm == Approx(30 - kCorner_mm + 0.5 * kStrip_mm).margin(1e-9));
}

TEST_CASE("Fingers stay on the die's top where the edge lies over it") {
    const Shop shop = pressShop();  // dies 28 wide: 14 to the back
    const Part part = sheet(200, 100, flange("lip", "web.front", 12));
    const GaugeStop lip = stopOf(fold(part, shop, {}, "lip", kFlangeSide));
    CHECK(lip.distance_mm == Approx(12 - kCorner_mm + 0.5 * kStrip_mm).margin(1e-9));
    CHECK(lip.fingers_z_mm == 0);
}

// The second leg of a channel: with its own flat edge at the back, or with the web there and the first leg standing.
TEST_CASE("A channel's second leg is gauged at its own edge, or at the outside of the first leg") {
    const Shop shop = pressShop();
    const Part part = sheet(200, 80, flange("left", "web.front", 20) + "," + flange("right", "web.back", 20));
    const GaugeStop flat = stopOf(fold(part, shop, {"left"}, "right", kFlangeSide));
    CHECK(flat.edge == "right.far");
    CHECK(flat.isFlat());
    CHECK(flat.distance_mm == Approx(20 - kCorner_mm + 0.5 * kStrip_mm).margin(1e-9));

    const GaugeStop formed = stopOf(fold(part, shop, {"left"}, "right", kBaseSide));
    CHECK(formed.touch == GaugeStop::Touch::kFace);
    CHECK(part.panel(formed.panel).name == "left");
    CHECK(formed.edge.empty());
    CHECK(formed.bends_between == 1);
    // From the outside of the left leg to the right bend's beginning, and half its strip.
    CHECK(formed.distance_mm == Approx(80 - kCorner_mm + 0.5 * kStrip_mm).margin(1e-9));
    // The face begins at the bend's end, t + r over the die.
    CHECK(formed.fingers_z_mm + 15 >= kCorner_mm + 4 - 1e-9);
    CHECK(formed.tolerance_mm > flat.tolerance_mm);

    // Before the first leg is bent its edge is the flat sheet's.
    const GaugeStop before = stopOf(fold(part, shop, {}, "right", kBaseSide));
    CHECK(before.edge == "left.far");
    CHECK(before.isFlat());
    CHECK(before.distance_mm ==
          Approx(0.5 * kStrip_mm + (80 - 2 * kCorner_mm) + kStrip_mm + (20 - kCorner_mm)).margin(1e-9));
}

// ISO 2768-1, class m: 6 to 30 mm ±0.2, 30 to 120 ±0.3, 120 to 400 ±0.5, 400 to 1000 ±0.8. On the sheet, which is 800
// long, the place of the line is as good as the size from the edge that it is gauged at.
TEST_CASE("The tolerance of a stop is that of the width that is gauged, whatever the sheet's length") {
    Shop shop = pressShop();
    shop.cutting.reset();
    shop.tolerances = Tolerances{};
    const double set_mm = shop.tolerances.bend_line_mm;
    const Part part = sheet(800, 100, flange("left", "web.front", 25) + "," + flange("right", "web.back", 40));
    // About 24, 39, and 98 + 42 over the line of the left bend, still flat.
    CHECK(stopOf(fold(part, shop, {}, "left", kFlangeSide)).tolerance_mm == Approx(set_mm + 0.2).margin(1e-9));
    CHECK(stopOf(fold(part, shop, {}, "right", kFlangeSide)).tolerance_mm == Approx(set_mm + 0.3).margin(1e-9));
    const GaugeStop across = stopOf(fold(part, shop, {}, "left", kBaseSide));
    CHECK(across.edge == "right.far");
    CHECK(across.tolerance_mm == Approx(set_mm + 0.5).margin(1e-9));
    // What the shop says of its cut holds for every size.
    shop.tolerances.cutting_mm = 0.7;
    CHECK(stopOf(fold(part, shop, {}, "left", kFlangeSide)).tolerance_mm == Approx(set_mm + 0.7).margin(1e-9));
}

// The right bend is gauged against the outside of the left leg: by as much as the left leg's own line is off on the
// sheet, so is the right one's, besides its own setting, strip and angle.
TEST_CASE("What is gauged over a bend is off by what that bend's own stop was off, too") {
    const Shop shop = pressShop();
    const Part part = sheet(200, 80, flange("left", "web.front", 20) + "," + flange("right", "web.back", 20));
    FoldEngine engine(part, shop, test::inUse(part, shop.brakes[0]));
    const Stroke stroke{bit(named(part, "right")), kBaseSide};
    const BendMask state = bit(named(part, "left"));
    const StrokeResult result = engine.check(state, stroke);
    REQUIRE(result.answer == StrokeAnswer::kPossible);
    const double set_mm = shop.tolerances.bend_line_mm;
    const auto off_mm = [&](double left_mm) {
        return engine.gauge(state, stroke, result, {left_mm, set_mm}).stop->tolerance_mm;
    };
    CHECK(off_mm(set_mm) == engine.gauge(state, stroke, result).stop->tolerance_mm);
    CHECK(off_mm(0.75) - off_mm(0.25) == Approx(0.5).margin(0.02));  // and what is of second order
    CHECK(off_mm(0.75) - off_mm(0.25) >= 0.5);
}

// What a bent leg adds, told on paper for a leg that may be off by da and a strip that may be off by dA: the line half
// of that and its own setting; the face t + r out from where the bend begins; leaning by da it comes nearer by da times
// the height at which it is touched over the arc's centre.
TEST_CASE("Each bend between adds its line, its strip and its angle") {
    Shop shop = pressShop();
    shop.tolerances.thickness_mm = 0;
    const Part part = sheet(200, 80, flange("left", "web.front", 20) + "," + flange("right", "web.back", 20));
    const GaugeStop stop = stopOf(fold(part, shop, {"left"}, "right", kBaseSide));
    const ToleranceBox box = shop.tolerancesFor(part);
    const double da = box.bend_angle.rad();
    const double strip = kStrip_mm / (0.5 * std::numbers::pi) * da;
    const double top = std::min(stop.fingers_z_mm + 15, kThickness_mm + 20.0);
    const double over_centre = top - kCorner_mm;
    const double linear = box.bend_line_mm + (box.bend_line_mm + 0.5 * strip) + 0.5 * strip + da * over_centre;
    CHECK(stop.tolerance_mm >= linear - 1e-9);
    CHECK(stop.tolerance_mm <= linear + 0.05);  // what is of second order, bounded
}

TEST_CASE("A flange turned down behind the V is gauged on its outside, with the fingers lower") {
    const Shop shop = pressShop();
    const Part part = sheet(250, 40, flange("up", "web.front", 30) + "," + flange("down", "web.back", 30, "down"));
    const GaugeStop stop = stopOf(fold(part, shop, {"down"}, "up", kBaseSide));
    CHECK(stop.touch == GaugeStop::Touch::kFace);
    CHECK(part.panel(stop.panel).name == "down");
    CHECK(stop.bends_between == 1);
    CHECK(stop.distance_mm == Approx(40 - kCorner_mm + 0.5 * kStrip_mm).margin(1e-9));
    // Its flat face begins r under the sheet, and the fingers touch 4 mm of it.
    CHECK(stop.fingers_z_mm <= -kRadius_mm - 4 + 1e-9);

    // Fingers that cannot be lowered do not reach it.
    Shop high = shop;
    high.brakes[0].press().gauge->lowest_mm = 60;  // dies are 60 high
    const FoldStep none = fold(part, high, {"down"}, "up", kBaseSide);
    CHECK_FALSE(none.gauge_stop);
    CHECK(none.gauge_trouble == GaugeTrouble::kOutOfReach);
}

TEST_CASE("A flange bent past a right angle is gauged where its bend reaches furthest back") {
    Shop shop = pressShop();
    shop.brakes[0].press().gauge->lowest_mm = -40;  // over the dies' seat, and none stands here
    const Part part =
        sheet(200, 80, flange("left", "web.front", 20, "up", 110) + "," + flange("right", "web.back", 20));
    FoldEngine engine(part, shop, test::inUse(part, shop.brakes[0]));
    StrokeResult in_the_middle;  // the shipped dies open to 85 degrees: the state alone is asked about
    in_the_middle.part_x_um = 500'000;
    const GaugeChoice choice =
        engine.gauge(bit(named(part, "left")), {bit(named(part, "right")), kBaseSide}, in_the_middle);
    REQUIRE(choice.stop);
    CHECK(choice.stop->touch == GaugeStop::Touch::kBend);
    const double web_mm = part.panels[0].region.outline[2].y() - part.panels[0].region.outline[0].y();
    CHECK(choice.stop->distance_mm ==
          Approx(0.5 * part.bend(named(part, "right")).allowance_mm + web_mm + kCorner_mm).margin(1e-6));
}

// 1 mm sheet in a V of 6, inside radius 0.16 of it. The flange is 40 from the web's outside to the outside of its
// folded edge, closed: the edge is then where a cut edge of that size would be, a corner (t + r) short of 40 from where
// the bend ends, and half the bend's strip more from its line.
TEST_CASE("A flange with a closed hem is gauged at its folded edge, whatever the gap") {
    const Result<Shop> shop = readShop(TINWRIGHT_SOURCE_DIR "/tests/plan/data/press-hem.json");
    REQUIRE(shop.ok());
    constexpr double kThin_mm = 1;
    constexpr double kBend_mm = 0.96;
    const double strip_mm = 0.5 * std::numbers::pi * (kBend_mm + 0.42 * kThin_mm);
    const double by_hand_mm = 40 - (kThin_mm + kBend_mm) + 0.5 * strip_mm;
    CHECK(by_hand_mm == Approx(39.12).margin(0.005));
    for (const char* direction : {"up", "down"}) {
        for (const double gap_mm : {0.0, 0.5, 1.0, 2.0, 4.0, 6.0}) {
            CAPTURE(direction, gap_mm);
            const std::string hem =
                fmt::format(R"(,{{"name":"hem","on":"lip.far","length":10,"direction":"{}","hem":{{"gap":{}}}}})",
                            direction, gap_mm);
            const Part part = sheet(200, 100, flange("lip", "web.front", 40) + hem, kThin_mm, kBend_mm);
            Shop one = shop.value();
            for (const Vee& vee : veesOf(one.brakes[0])) {
                if (vee.opening_mm == 6) one.brakes[0] = test::onlyVee(one.brakes[0], vee);
            }
            one.brakes[0].press().gauge->lowest_mm = -40;  // over the dies' seat, and none stands here
            FoldEngine engine(part, one, test::inUse(part, one.brakes[0]));
            StrokeResult in_the_middle;
            in_the_middle.part_x_um = 500'000;
            const GaugeChoice choice =
                engine.gauge(bit(named(part, "hem")), {bit(named(part, "lip")), kFlangeSide}, in_the_middle);
            REQUIRE(choice.stop);
            CHECK(choice.stop->touch == GaugeStop::Touch::kBend);
            CHECK(part.panel(choice.stop->panel).name == "hem");
            CHECK(choice.stop->bends_between == 1);
            CHECK(choice.stop->fingers.size() == 2);
            CHECK(choice.stop->distance_mm == Approx(by_hand_mm).margin(1e-6));
        }
    }
}

// 0.8 mm sheet: the flange lies on the die (20 to the back), and the middle of its closed hem is 0.8 over it. Fingers
// on the die's top touch that.
TEST_CASE("A closed hem of thin sheet is gauged with the fingers on the die's top") {
    const Result<Shop> shop = readShop(TINWRIGHT_SOURCE_DIR "/tests/plan/data/press-hem.json");
    REQUIRE(shop.ok());
    const Part part =
        sheet(200, 100, flange("lip", "web.front", 15) + R"(,{"name":"hem","on":"lip.far","length":8,"hem":{"gap":0}})",
              0.8, 0.96);
    FoldEngine engine(part, shop.value(), test::inUse(part, shop.value().brakes[0]));
    StrokeResult on_dies;
    on_dies.part_x_um = 500'000;
    const std::optional<ToolId> die = shop.value().brakes[0].toolCalled("VH6-200");
    REQUIRE(die);
    on_dies.setup.pieces.push_back({*die, {500'000, 700'000}});
    const GaugeChoice choice = engine.gauge(bit(named(part, "hem")), {bit(named(part, "lip")), kFlangeSide}, on_dies);
    REQUIRE(choice.stop);
    CHECK(choice.stop->touch == GaugeStop::Touch::kBend);
    CHECK(choice.stop->fingers_z_mm == Approx(0).margin(1e-9));
    CHECK(choice.stop->distance_mm == Approx(15 - 1.76 + 0.25 * std::numbers::pi * (0.96 + 0.42 * 0.8)).margin(1e-6));
}

TEST_CASE("No stop is told, with the reason, where no edge is parallel, within reach, or got at") {
    const Shop shop = pressShop();
    const Part deep = sheet(200, 100, flange("lip", "web.front", 30));
    Shop shallow = shop;
    shallow.brakes[0].press().gauge->furthest_mm = 98;
    const FoldStep far = fold(deep, shallow, {}, "lip", kBaseSide);
    CHECK_FALSE(far.gauge_stop);
    CHECK(far.gauge_trouble == GaugeTrouble::kNoEdge);
    // The sight line is the bend line itself, which comes under the punch's tip.
    CHECK(far.sight_from_edge == "lip.far");
    CHECK(far.sight_mm == Approx(30 - kCorner_mm + 0.5 * kStrip_mm).margin(1e-9));

    // One corner of the back edge cut away to a skew edge all along.
    Part skew = sheet(200, 100, flange("lip", "web.front", 30));
    Polygon& outline = skew.panels[0].region.outline;
    const auto corner = std::max_element(outline.begin(), outline.end(),
                                         [](const Vec2& a, const Vec2& b) { return a.x() + a.y() < b.x() + b.y(); });
    corner->y() -= 10;
    const FoldStep slanted = fold(skew, shop, {}, "lip", kBaseSide);
    CHECK_FALSE(slanted.gauge_stop);
    CHECK(slanted.gauge_trouble == GaugeTrouble::kNoEdge);

    Shop without = shop;
    without.brakes[0].press().gauge.reset();
    CHECK(fold(deep, without, {}, "lip", kBaseSide).gauge_trouble == GaugeTrouble::kNoGauge);
}

TEST_CASE("An edge narrower than a finger is touched all along by one") {
    const Shop shop = pressShop();
    const Part part = sheet(40, 100, flange("lip", "web.front", 30));
    const GaugeStop stop = stopOf(fold(part, shop, {}, "lip", kBaseSide));
    REQUIRE(stop.fingers.size() == 1);
    CHECK(stop.fingers[0].from_mm == Approx(-10).margin(1e-3));
    CHECK(stop.fingers[0].to_mm == Approx(50).margin(1e-3));
}
