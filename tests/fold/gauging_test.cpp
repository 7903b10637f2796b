// SPDX-License-Identifier: GPL-3.0-or-later
// What lies against the fingers of a back gauge: known shapes worked out by hand, and random parts measured again in
// their folded pose, by the part floor's kinematics and a sight along the fingers' faces.
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
#include <tinwright/part/model/pose.h>

#include "bodies/part_bodies.h"
#include "deviating_part.h"
#include "random_states.h"

using namespace tinwright;
using random_states::Dice;

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

// 1.5 mm sheet, sizes outside. `flanges`: name, edge, length, direction.
Part sheet(double width_mm, double depth_mm, const std::string& flanges) {
    const std::string recipe = fmt::format(
        R"({{"format":"tinwright-part/1","units":"mm","name":"sheet","sheet":{{"material":"mild-steel","thickness":1.5}},)"
        R"("allowance":{{"rule":"k-factor","k":0.42}},"inside_radius":1.92,"measured":"outside",)"
        R"("base":{{"name":"web","width":{},"depth":{}}},"flanges":[{}]}})",
        width_mm, depth_mm, flanges);
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
    // What the shop says of setting and cutting: nothing is bent between.
    const ToleranceBox box = shop.tolerancesFor(part);
    CHECK(base.tolerance_mm == Approx(box.bend_line_mm + box.cutting_mm[0]).margin(1e-9));

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

// ---- random parts
// -------------------------------------------------------------------------------------------------------------------------

namespace {

bool inside(const Polygon& ring, const Vec2& p) {
    bool in = false;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2& a = ring[i];
        const Vec2& b = ring[(i + 1) % ring.size()];
        if ((a.y() <= p.y()) != (b.y() <= p.y()) && p.x() < a.x() + (p.y() - a.y()) / (b.y() - a.y()) * (b.x() - a.x()))
            in = !in;
    }
    return in;
}

// The part as it lies before the stroke of one bend: x from the bend's left end, y back from the bend line, z over the
// die.
struct AtRest {
    const Part& part;
    double radius_mm;
    std::vector<Rigid> place_from_panel;

    AtRest(const Part& whole, const random_states::State& state, double radius) : part(whole), radius_mm(radius) {
        const Bend& bend = part.bend(state.bend);
        const std::vector<Rigid> base_from = baseFromPanels(part, state.formed, radius_mm);
        const Vec2 back = state.hold == Side::kParent ? Vec2(-bend.toward_child) : bend.toward_child;
        const Vec3 y(back.x(), back.y(), 0);
        const Vec3 z(0, 0, bend.up ? 1 : -1);
        const Vec3 x = y.cross(z);
        double left = 1e9;
        for (const StripSpan& span : bend.spans) {
            for (const double at : {span.from_mm, span.to_mm}) {
                const Vec2 p = bend.origin + at * bend.along;
                left = std::min(left, x.dot(Vec3(p.x(), p.y(), 0)));
            }
        }
        Rigid place = Rigid::Identity();
        place.linear().row(0) = x.transpose();
        place.linear().row(1) = y.transpose();
        place.linear().row(2) = z.transpose();
        const double over = bend.up ? 0 : part.thickness_mm;
        place.translation() = Vec3(-left, -back.dot(bend.origin), over);
        const PanelId held = state.hold == Side::kParent ? bend.parent : bend.child;
        for (const Rigid& panel : base_from)
            place_from_panel.push_back(place * base_from[held.index()].inverse() * panel);
    }

    [[nodiscard]] bool inPanel(std::size_t panel, const Vec3& point) const {
        const Vec3 p = place_from_panel[panel].inverse() * point;
        if (p.z() < 0 || p.z() > part.thickness_mm) return false;
        const Region& region = part.panels[panel].region;
        const Vec2 flat(p.x(), p.y());
        return inside(region.outline, flat) && std::none_of(region.holes.begin(), region.holes.end(),
                                                            [&](const Polygon& hole) { return inside(hole, flat); });
    }
    // In the bent strip: between the radii about the arc's centre, within its angle.
    [[nodiscard]] bool inArc(const Bend& bend, const Vec3& point) const {
        const Vec3 p = place_from_panel[bend.parent.index()].inverse() * point;
        const Vec2 tangent = bend.origin - 0.5 * bend.allowance_mm * bend.toward_child;
        const Vec2 off = Vec2(p.x(), p.y()) - tangent;
        const double along = off.dot(bend.along);
        const bool in_span = std::any_of(bend.spans.begin(), bend.spans.end(), [&](const StripSpan& span) {
            return along >= span.from_mm && along <= span.to_mm;
        });
        const double u = off.dot(bend.toward_child);
        const double w = bend.up ? part.thickness_mm + radius_mm - p.z() : p.z() + radius_mm;
        const double angle = std::atan2(u, w);
        const double reach = std::hypot(u, w);
        return in_span && angle >= 0 && angle <= bend.angle.rad() && reach >= radius_mm &&
               reach <= radius_mm + part.thickness_mm;
    }
};

struct Drawn {
    random_states::Case what;
    random_states::State state;
    GaugeChoice choice;
};

Drawn drawn(std::uint64_t seed) {
    Dice dice(seed);
    Drawn result{random_states::randomPressCase(seed), {}, {}};
    PressBrake& press = result.what.shop.brakes[0].press();
    press.gauge = BackGauge{dice.between(0, 10), dice.between(100, 400), dice.between(8, 40),
                            dice.between(5, 30), -dice.between(0, 60),   dice.between(60, 200)};
    press.throat_mm = 0;
    result.state = random_states::randomState(result.what.part, dice);
    return result;
}

StrokeResult standing(const Drawn& drawn, FoldEngine& engine, BendMask formed) {
    const StrokeResult result = engine.check(formed, {bit(drawn.state.bend), drawn.state.hold});
    if (result.answer == StrokeAnswer::kPossible) return result;
    StrokeResult alone;  // what stands before a stroke that is not possible: nothing
    alone.part_x_um = micronNearest(0.5 * drawn.what.brake()->length_mm);
    return alone;
}

}  // namespace

TEST_CASE("The stop is where the folded part, measured again, ends against the fingers") {
    int stops = 0;
    int formed_stops = 0;
    int faces = 0;
    int bends = 0;
    int none = 0;
    for (std::uint64_t seed = 1; seed <= 750; ++seed) {
        CAPTURE(seed);
        Drawn one = drawn(seed);
        FoldEngine engine(one.what.part, one.what.shop, one.what.brake());
        const Stroke stroke{bit(one.state.bend), one.state.hold};
        one.choice = engine.gauge(one.state.formed, stroke, standing(one, engine, one.state.formed));
        if (!one.choice.stop) {
            ++none;
            CHECK(one.choice.trouble);
            continue;
        }
        const GaugeStop& stop = *one.choice.stop;
        const BackGauge gauge = *one.what.brake()->press().gauge;
        ++stops;
        formed_stops += stop.isFlat() ? 0 : 1;
        faces += stop.touch == GaugeStop::Touch::kFace ? 1 : 0;
        bends += stop.touch == GaugeStop::Touch::kBend ? 1 : 0;
        CHECK(stop.distance_mm >= gauge.nearest_mm);
        CHECK(stop.distance_mm <= gauge.furthest_mm);
        const AtRest at_rest(one.what.part, one.state, one.what.brake().inside_radius_mm());
        Dice dice(seed + 77);
        for (const PlacedFinger& finger : stop.fingers) {
            CHECK(finger.to_mm - finger.from_mm == Approx(gauge.finger_width_mm).margin(0.002));
            int touched = 0;
            int at_back = 0;
            for (int i = 0; i < 60; ++i) {
                const double x = dice.between(finger.from_mm + 0.01, finger.to_mm - 0.01);
                const double z = stop.fingers_z_mm + dice.between(0.06, gauge.finger_height_mm - 0.06);
                const Vec3 in_finger(
                    x, stop.distance_mm + (dice.chance(0.5) ? 0.06 + dice.between(0, 1) : dice.between(0.06, 150)), z);
                for (std::size_t p = 0; p < one.what.part.panels.size(); ++p)
                    at_back += at_rest.inPanel(p, in_finger) ? 1 : 0;
                for (std::size_t b = 0; b < one.what.part.bends.size(); ++b) {
                    if (contains(one.state.formed, idAt<BendId>(b)))
                        at_back += at_rest.inArc(one.what.part.bends[b], in_finger) ? 1 : 0;
                }
            }
            for (int i = 0; i < 400; ++i) {  // just in front of the finger's face
                const double z = stop.fingers_z_mm + dice.between(0, gauge.finger_height_mm);
                const Vec3 before(dice.between(finger.from_mm, finger.to_mm), stop.distance_mm - 0.01, z);
                if (stop.touch == GaugeStop::Touch::kBend) {
                    for (std::size_t b = 0; b < one.what.part.bends.size(); ++b) {
                        if (contains(one.state.formed, idAt<BendId>(b)))
                            touched += at_rest.inArc(one.what.part.bends[b], before) ? 1 : 0;
                    }
                } else {
                    touched += at_rest.inPanel(stop.panel.index(), before) ? 1 : 0;
                }
            }
            CHECK(at_back == 0);
            CHECK(touched > 0);
        }
    }
    INFO(stops << " stops, " << formed_stops << " formed, " << faces << " faces, " << bends << " bends, " << none
               << " none");
    CHECK(stops > 250);
    CHECK(formed_stops > 15);
    CHECK(faces > 2);
    CHECK(bends > 2);
    CHECK(none > 25);
}

// What is in front of the bend line is not at the back: whether it is formed or not, the stop is the same.
TEST_CASE("Bends on the other side of the bend line do not change the stop") {
    int asked = 0;
    for (std::uint64_t seed = 2001; seed <= 2800; ++seed) {
        CAPTURE(seed);
        const Drawn one = drawn(seed);
        const Part& part = one.what.part;
        const Bend& line = part.bend(one.state.bend);
        // Bends whose child hangs on the child of the line, or all others.
        BendMask beyond = 0;
        std::vector<bool> hangs(part.panels.size(), false);
        hangs[line.child.index()] = true;
        for (std::size_t b = 0; b < part.bends.size(); ++b) {
            if (!hangs[part.bends[b].parent.index()]) continue;
            hangs[part.bends[b].child.index()] = true;
            beyond |= bit(idAt<BendId>(b));
        }
        const BendMask front =
            one.state.hold == Side::kParent ? beyond : allFormed(part) & ~beyond & ~bit(one.state.bend);
        if (front == 0) continue;
        FoldEngine engine(part, one.what.shop, one.what.brake());
        const Stroke stroke{bit(one.state.bend), one.state.hold};
        const StrokeResult where = standing(one, engine, one.state.formed);
        const GaugeChoice a = engine.gauge(one.state.formed & ~front, stroke, where);
        const GaugeChoice b = engine.gauge(one.state.formed | front, stroke, where);
        // But a wall that leans over to the back may be in the fingers' way.
        const double nearest = std::min(a.stop ? a.stop->distance_mm : 1e9, b.stop ? b.stop->distance_mm : 1e9);
        const bool base_in_front = one.state.hold == Side::kChild;
        const AtRest at_rest(part, {one.state.formed | front, one.state.bend, one.state.hold},
                             one.what.brake().inside_radius_mm());
        bool leans_over = false;
        for (std::size_t p = 0; p < part.panels.size(); ++p) {
            if (hangs[p] == base_in_front) continue;
            for (const Vec2& corner : part.panels[p].region.outline) {
                leans_over =
                    leans_over ||
                    (at_rest.place_from_panel[p] * Vec3(corner.x(), corner.y(), 0.5 * part.thickness_mm)).y() > nearest;
            }
        }
        if (leans_over) continue;
        ++asked;
        CHECK(a.stop.has_value() == b.stop.has_value());
        if (!a.stop || !b.stop) continue;
        CHECK(a.stop->panel == b.stop->panel);
        CHECK(a.stop->touch == b.stop->touch);
        CHECK(a.stop->bends_between == b.stop->bends_between);
        CHECK(a.stop->distance_mm == b.stop->distance_mm);
        CHECK(a.stop->tolerance_mm == b.stop->tolerance_mm);
    }
    CHECK(asked > 200);
}

// Parts that came out otherwise, made without the linear terms of `Deviation`: where what is touched then lies is
// within the tolerance told.
TEST_CASE("The tolerance of a stop holds what parts within the shop's tolerances come to") {
    int asked = 0;
    double nearest_share = 0;
    for (std::uint64_t seed = 3001; seed <= 3800; ++seed) {
        CAPTURE(seed);
        const Drawn one = drawn(seed);
        const Part& part = one.what.part;
        const double radius_mm = one.what.brake().inside_radius_mm();
        FoldEngine engine(part, one.what.shop, one.what.brake());
        const GaugeChoice choice = engine.gauge(one.state.formed, {bit(one.state.bend), one.state.hold},
                                                standing(one, engine, one.state.formed));
        if (!choice.stop || choice.stop->touch == GaugeStop::Touch::kBend) continue;
        const GaugeStop& stop = *choice.stop;
        const AtRest nominal(part, one.state, radius_mm);
        const ToleranceBox box = one.what.shop.tolerancesFor(part);
        Dice dice(seed + 99);
        for (int i = 0; i < 6; ++i) {
            const deviating::Sample sample =
                deviating::sampleOf(part, box, one.state.bend, one.state.hold, false, dice.chance(0.5), dice);
            const PartOnBrake on_brake = partOnBrake(sample.part, one.what.shop, one.what.brake());
            const PartBodies other(on_brake, radius_mm);
            const PanelId held = heldPanel(part.bend(one.state.bend), one.state.hold);
            const Bend& line = part.bend(one.state.bend);
            Rigid frame = foldFromBlank(line, one.state.hold, sample.part.thickness_mm, 0.5 * line.allowance_mm);
            frame.pretranslate(Vec3(0, sample.line_off_mm, 0));
            const Rigid place = frame * other.pose(held, stop.panel, one.state.formed);
            const Rigid was = nominal.place_from_panel[stop.panel.index()];
            const Polygon& drawn_ring = part.panel(stop.panel).region.outline;
            const Polygon& ring = sample.part.panel(stop.panel).region.outline;
            std::vector<double> found;
            if (stop.touch == GaugeStop::Touch::kFace) {  // the plane, at places that the fingers touch
                const bool upper = was.linear()(1, 2) > 0;
                const Vec3 normal = place.linear().col(2);
                const Vec3 through = place * Vec3(0, 0, upper ? sample.part.thickness_mm : 0);
                double low = 1e9;
                double high = -1e9;
                for (const Vec2& p : drawn_ring) {
                    low = std::min(low, (was * Vec3(p.x(), p.y(), 0)).z());
                    high = std::max(high, (was * Vec3(p.x(), p.y(), 0)).z());
                }
                const double top = stop.fingers_z_mm + one.what.brake()->press().gauge->finger_height_mm;
                const double z = dice.between(std::max(low, stop.fingers_z_mm), std::min(high, top));
                found.push_back(through.y() - normal.z() / normal.y() * (z - through.z()));
            } else {
                for (std::size_t k = 0; k < ring.size(); ++k) {
                    const std::size_t next = (k + 1) % ring.size();
                    const Vec3 a = was * Vec3(drawn_ring[k].x(), drawn_ring[k].y(), 0);
                    const Vec3 b = was * Vec3(drawn_ring[next].x(), drawn_ring[next].y(), 0);
                    if (std::abs(a.y() - stop.distance_mm) > 1e-6 || std::abs(b.y() - stop.distance_mm) > 1e-6)
                        continue;
                    for (const PlacedFinger& finger : stop.fingers) {
                        const double t = (dice.between(finger.from_mm, finger.to_mm) - a.x()) / (b.x() - a.x());
                        if (t < 0 || t > 1) continue;
                        const Vec2 p = (1 - t) * ring[k] + t * ring[next];
                        found.push_back((place * Vec3(p.x(), p.y(), dice.between(0, sample.part.thickness_mm))).y());
                    }
                }
            }
            for (const double y : found) {
                ++asked;
                CHECK(std::abs(y - stop.distance_mm) <= stop.tolerance_mm + 1e-6);
                nearest_share = std::max(nearest_share, std::abs(y - stop.distance_mm) / stop.tolerance_mm);
            }
        }
    }
    INFO(asked << " asked, " << nearest_share << " of the tolerance at most");
    CHECK(asked > 1000);
    CHECK(nearest_share > 0.9);
}
