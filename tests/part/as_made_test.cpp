// SPDX-License-Identifier: GPL-3.0-or-later
// The part as it came out: strips of formed bends moved on a blank that is cut.
#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <random>

#include <tinwright/part/developing/develop.h>
#include <tinwright/part/edges/leg_end.h>
#include <tinwright/part/flat/flat_blank.h>
#include <tinwright/part/made/as_made.h>
#include <tinwright/part/made/finished_sizes.h>
#include <tinwright/part/made/move_bend.h>
#include <tinwright/part/model/pose.h>

#include "recipes.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

/// A channel, 80 x 120 outside, legs of 36.
Part channel() {
    Recipe recipe = plate(80, 120, 1.5, 1, Measured::kOutside);
    addFlange(recipe, "left", "base.left", 36);
    addFlange(recipe, "right", "base.right", 36);
    return develop(recipe).value();
}

/// A tray with a lip on one wall and square reliefs at its corners.
Recipe tray(double relief_mm) {
    Recipe recipe = plate(100, 70, 1.5, 1, Measured::kOutside);
    for (const char* name : {"front", "right", "back", "left"})
        addFlange(recipe, name, std::string("base.") + name, 30);
    addFlange(recipe, "lip", "front.far", 12);
    const char* const kWalls[] = {"front", "right", "back", "left", "front"};
    for (int i = 0; i < 4; ++i) {
        Corner corner;
        corner.flange[0] = kWalls[i];
        corner.flange[1] = kWalls[i + 1];
        corner.type = CornerType::kOpen;
        corner.gap = Dimension::of(1);
        if (relief_mm > 0) {
            corner.relief = ReliefShape::kSquare;
            corner.relief_size = Dimension::of(relief_mm);
        }
        recipe.corners.push_back(corner);
    }
    return recipe;
}

BendId bendOf(const Part& part, const std::string& name) {
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        if (part.bends[i].name == name) return idAt<BendId>(i);
    }
    FAIL("no bend " << name);
    return {};
}

const NamedEdge& edgeOf(const Part& part, const std::string& name) {
    for (const NamedEdge& edge : part.edges) {
        if (edge.name == name) return edge;
    }
    FAIL("no edge " << name);
    return part.edges.front();
}

MadeBend sized(const Part& part, const std::string& bend, double outside_mm) {
    return {bendOf(part, bend), outside_mm, std::nullopt};
}
MadeBend turned(const Part& part, const std::string& bend, double deg) {
    return {bendOf(part, bend), std::nullopt, Angle::degrees(deg)};
}

Part made(const Part& part, const std::vector<MadeBend>& bends, BendMask formed = 0) {
    Result<Part> result = asMade(part, bends, formed);
    INFO((result ? std::string() : textOf(result.issues())));
    REQUIRE(result.ok());
    return std::move(result).value();
}

Issues refused(const Part& part, const std::vector<MadeBend>& bends, BendMask formed = 0) {
    const Result<Part> result = asMade(part, bends, formed);
    REQUIRE_FALSE(result.ok());
    return result.issues();
}

double area(const Part& part) {
    double sum = 0;
    for (const Panel& panel : part.panels) sum += area_mm2(panel.region);
    for (const Bend& bend : part.bends) sum += bend.allowance_mm * stripLength_mm(bend);
    return sum;
}

/// The outside size of a flange as a calliper finds it on the folded part, from the pose of its panel: back from its
/// free edge, along its outside face, to where that meets the outside face of the other panel; past a right angle,
/// where they no longer meet, to the plane square to it that touches the bend.
double measured_mm(const Part& part, BendId id, const NamedEdge& edge) {
    const Bend& bend = part.bend(id);
    const std::vector<Rigid> poses = baseFromPanels(part, allFormed(part));
    const Rigid parent_from_child = poses[bend.parent.index()].inverse() * poses[bend.child.index()];
    const double outside_z = bend.up ? 0 : part.thickness_mm;
    const Vec3 end = parent_from_child * Vec3(edge.from.x(), edge.from.y(), outside_z);
    const Vec3 way = parent_from_child.linear() * Vec3(bend.toward_child.x(), bend.toward_child.y(), 0);
    if (bend.angle.deg() <= 90 + 1e-9) return (end.z() - outside_z) / way.z();
    const Vec2 tangent = bend.origin - 0.5 * bend.allowance_mm * bend.toward_child;
    const double centre_z = bend.up ? part.thickness_mm + bend.inside_radius_mm : -bend.inside_radius_mm;
    return way.dot(end - Vec3(tangent.x(), tangent.y(), centre_z)) + bend.inside_radius_mm + part.thickness_mm;
}

bool isSameRegion(const Region& a, const Region& b, double apart_mm2 = 1e-6) {
    double apart = 0;
    for (const Region& piece : outside(a, b)) apart += area_mm2(piece);
    for (const Region& piece : outside(b, a)) apart += area_mm2(piece);
    return apart < apart_mm2;
}

void checkSamePart(const Part& a, const Part& b) {
    REQUIRE(a.panels.size() == b.panels.size());
    for (std::size_t i = 0; i < a.panels.size(); ++i) CHECK(isSameRegion(a.panels[i].region, b.panels[i].region));
    for (std::size_t i = 0; i < a.bends.size(); ++i) {
        CHECK((a.bends[i].origin - b.bends[i].origin).norm() < 1e-6);
        CHECK(a.bends[i].allowance_mm == Approx(b.bends[i].allowance_mm));
        REQUIRE(a.bends[i].spans.size() == b.bends[i].spans.size());
        for (std::size_t s = 0; s < a.bends[i].spans.size(); ++s) {
            CHECK(a.bends[i].spans[s].from_mm == Approx(b.bends[i].spans[s].from_mm).margin(1e-4));
            CHECK(a.bends[i].spans[s].to_mm == Approx(b.bends[i].spans[s].to_mm).margin(1e-4));
        }
    }
    REQUIRE(a.edges.size() == b.edges.size());
    for (std::size_t i = 0; i < a.edges.size(); ++i) {
        CHECK(a.edges[i].name == b.edges[i].name);
        CHECK((a.edges[i].from - b.edges[i].from).norm() < 1e-3);
        CHECK((a.edges[i].to - b.edges[i].to).norm() < 1e-3);
    }
}

}  // namespace

// Common practice arithmetic of the flat pattern, by hand. Sheet 1.5, inside radius 1, so the outside setback of a
// right angle is 1 + 1.5 = 2.5. Channel 80 outside with legs of 36: flats 33.5 | 75 | 33.5, two strips of a between
// them; the blank is 142 + 2 a long. A leg that measures 35.2 has a flat of 32.7, 0.8 less, and the blank is as long as
// it was: the web has 75.8 now and is 80.8 outside (77.8 inside, two thicknesses less).
TEST_CASE("A leg that came out 0.8 short leaves the web 0.8 longer") {
    const Part drawn = channel();
    const Part now = made(drawn, {sized(drawn, "left", 35.2)});
    const Bend& left = now.bend(bendOf(now, "left"));
    // The strip has gone towards the leg's free edge.
    CHECK((left.origin - drawn.bend(bendOf(drawn, "left")).origin).dot(left.toward_child) == Approx(0.8));
    const Region& web = now.panels[0].region;
    CHECK(area_mm2(web) == Approx(75.8 * 120));
    CHECK(area_mm2(panelOf(now, "left").region) == Approx(32.7 * 120));
    CHECK(area_mm2(panelOf(now, "right").region) == Approx(33.5 * 120));
    const std::vector<SizeChange> changes = sizeChanges(drawn, now);
    REQUIRE(changes.size() == 2);
    CHECK(drawn.panel(changes[0].now.panel).name == "left");
    CHECK(changes[0].drawn.outside_mm == Approx(36));
    CHECK(changes[0].now.outside_mm == Approx(35.2));
    CHECK(drawn.panel(changes[1].now.panel).name == "base");
    CHECK(changes[1].drawn.outside_mm == Approx(80));
    CHECK(changes[1].now.outside_mm == Approx(80.8));
    CHECK(changes[1].now.inside_mm == Approx(77.8));
    CHECK(now.blank.outline == drawn.blank.outline);
    CHECK(now.warnings == drawn.warnings);
}

TEST_CASE("A leg that came out longer takes from the web on its side alone") {
    const Part drawn = channel();
    const Part now = made(drawn, {sized(drawn, "right", 36.7)});
    CHECK(area_mm2(now.panels[0].region) == Approx(74.3 * 120));
    // Ends of the web that are measured from begin where the strip ends now.
    const NamedEdge& was = edgeOf(drawn, "base.front");
    const NamedEdge& is = edgeOf(now, "base.front");
    CHECK((is.to - is.from).norm() == Approx((was.to - was.from).norm() - 0.7));
    CHECK(is.from.x() == was.from.x());
    CHECK((edgeOf(now, "right.left").to - edgeOf(now, "right.left").from).norm() == Approx(33.5 + 0.7));
    CHECK(edgeOf(now, "right.far").from == edgeOf(drawn, "right.far").from);
}

// k-factor 0.44: the strip of 88 degrees is 88/90 of that of 90. The line stays, each flat beside it has half of what
// the strip gave up.
TEST_CASE("A bend measured at 88 degrees keeps its line and has the strip of 88 degrees") {
    const Part drawn = channel();
    const Part now = made(drawn, {turned(drawn, "left", 88)});
    const Bend& was = drawn.bend(bendOf(drawn, "left"));
    const Bend& is = now.bend(bendOf(now, "left"));
    CHECK(is.origin == was.origin);
    CHECK(is.angle.deg() == Approx(88));
    CHECK(is.allowance_mm == Approx(88.0 / 180 * std::numbers::pi * (1 + 0.44 * 1.5)));
    const double given_mm = 0.5 * (was.allowance_mm - is.allowance_mm);
    CHECK(area_mm2(now.panels[0].region) == Approx((75 + given_mm) * 120));
    CHECK(area_mm2(panelOf(now, "left").region) == Approx((33.5 + given_mm) * 120));
    // The leg leans out by two degrees: about 36 sin 2 = 1.26 at its edge.
    const auto out_mm = leansOut_mm(drawn, now, bendOf(now, "left"), allFormed(now));
    REQUIRE(out_mm);
    CHECK(*out_mm == Approx(36 * std::sin(2 * std::numbers::pi / 180)).margin(0.1));
}

TEST_CASE("Size and angle together: the flange measures what was given at the angle that it has") {
    const Part drawn = channel();
    const BendId left = bendOf(drawn, "left");
    for (const double deg : {20.0, 60.0, 88.0, 91.5, 120.0}) {
        const Part now = made(drawn, {{left, 35.2, Angle::degrees(deg)}});
        CHECK(measured_mm(now, left, edgeOf(now, "left.far")) == Approx(35.2).margin(1e-9));
    }
}

TEST_CASE("Made as drawn is the part as drawn") {
    for (const Part& drawn : {channel(), develop(tray(4)).value()}) {
        std::vector<MadeBend> all;
        for (std::size_t i = 0; i < drawn.bends.size(); ++i) {
            const auto bend = idAt<BendId>(i);
            const auto end = legEnd(drawn, bend, Side::kChild, allFormed(drawn));
            REQUIRE(end);
            all.push_back({bend, legSize_mm(drawn, bend, *end, Face::kOutside), drawn.bend(bend).angle});
        }
        const Part now = made(drawn, all);
        checkSamePart(drawn, now);
        CHECK(now.warnings == drawn.warnings);
    }
}

TEST_CASE("A line moved there and back leaves the part as it was") {
    const Part drawn = develop(tray(4)).value();
    for (const double by_mm : {0.3, -0.3, 4.0, -4.0}) {
        const Part there = withBendMoved(drawn, lineMove(drawn, bendOf(drawn, "lip"), by_mm)).value();
        const Part back = withBendMoved(there, lineMove(there, bendOf(there, "lip"), -by_mm)).value();
        checkSamePart(drawn, back);
    }
}

TEST_CASE("A wall is measured to the outside of its lip once that is formed, to its edge while it is flat") {
    const Part drawn = develop(tray(4)).value();
    const BendId front = bendOf(drawn, "front"), lip = bendOf(drawn, "lip");
    // Drawn 30 outside to outside. With the lip flat the wall runs on: 30 - 2.5 + strip + 12 - 2.5.
    const auto to_lip = legEnd(drawn, front, Side::kChild, bit(front) | bit(lip));
    REQUIRE(to_lip);
    CHECK(legSize_mm(drawn, front, *to_lip, Face::kOutside) == Approx(30));
    const auto to_edge = legEnd(drawn, front, Side::kChild, bit(front));
    REQUIRE(to_edge);
    CHECK(legSize_mm(drawn, front, *to_edge, Face::kOutside) == Approx(37 + drawn.bend(lip).allowance_mm));
    const Part now = made(drawn, {sized(drawn, "front", 30.4)}, bit(lip));
    CHECK((now.bend(front).origin - drawn.bend(front).origin).dot(now.bend(front).toward_child) == Approx(-0.4));
    CHECK(now.bend(lip).origin == drawn.bend(lip).origin);
    // A lip that is 0.5 longer has its line nearer to the wall's foot: the same reading of the wall then puts that
    // down as well.
    const Part both = made(drawn, {sized(drawn, "front", 30), sized(drawn, "lip", 12.5)});
    CHECK((both.bend(lip).origin - drawn.bend(lip).origin).dot(both.bend(lip).toward_child) == Approx(-0.5));
    CHECK((both.bend(front).origin - drawn.bend(front).origin).dot(both.bend(front).toward_child) == Approx(-0.5));
}

// A second way to the same part: the blank cut up anew along lines that are drawn where the bends came to lie.
TEST_CASE("A line moved on a drawing is the drawing with the line there") {
    const auto hole = [](double x, double y, double r) {
        Polygon ring;
        for (int i = 0; i < 24; ++i) {
            const double turn = i * std::numbers::pi / 12;
            ring.emplace_back(x + r * std::cos(turn), y + r * std::sin(turn));
        }
        return ring;
    };
    const Region sheet{{{0, 0}, {150, 0}, {150, 60}, {120, 80}, {0, 80}},
                       {hole(20, 40, 4), hole(75, 30, 12), hole(60, 65, 3)}};
    const auto drawnAt = [&](double left_x, double right_x) {
        const std::vector<FlatLine> lines{{{left_x, 0}, {left_x, 80}, ""}, {{right_x, 0}, {right_x, 80}, ""}};
        const auto joints = jointsOf(sheet, lines);
        INFO((joints ? std::string() : textOf(joints.issues())));
        REQUIRE(joints.ok());
        const FlatBend bend{"", Angle::degrees(90), true, 1, 2.6, AllowanceRule::kKFactor, 0.44, ""};
        FlatBend left = bend, right = bend;
        left.name = "left";
        right.name = "right";
        FlatPart whole{"drawing", "mild-steel", 1.5, "base", Vec2(90, 10), {}, {}, Film::kUnsaid};
        Result<Part> part = partFromFlat(sheet, joints.value(), {left, right}, whole);
        INFO((part ? std::string() : textOf(part.issues())));
        REQUIRE(part.ok());
        return std::move(part).value();
    };
    const Part drawn = drawnAt(30, 110);
    for (const double by_mm : {-12.0, -9.5, -5.0, -0.4, 0.4, 3.0, 24.0, 47.0}) {
        INFO(by_mm);
        const BendId left = bendOf(drawn, "left");
        const double out_mm = drawn.bend(left).toward_child.x() * by_mm;
        const Result<Part> moved = withBendMoved(drawn, lineMove(drawn, left, out_mm));
        INFO((moved ? std::string() : textOf(moved.issues())));
        REQUIRE(moved.ok());
        const Part anew = drawnAt(30 + by_mm, 110);
        for (const char* panel : {"base", "left", "right"})
            CHECK(isSameRegion(panelOf(moved.value(), panel).region, panelOf(anew, panel).region, 0.02));
        // A line that is drawn anew has spans of its own length; a strip moved has them where there is sheet across it.
        const Bend& a = moved.value().bend(left);
        const Bend& b = anew.bend(bendOf(anew, "left"));
        CHECK(stripLength_mm(a) >= stripLength_mm(b) - 1e-3);
        CHECK(stripLength_mm(a) <= stripLength_mm(b) + 4 * a.allowance_mm);
        CHECK(a.spans.size() == b.spans.size());
        for (const NamedCutOut& cut_out : moved.value().cut_outs) {
            for (const NamedCutOut& other : anew.cut_outs) {
                if (other.name == cut_out.name)
                    CHECK(moved.value().panel(cut_out.panel).name == anew.panel(other.panel).name);
            }
        }
    }
}

TEST_CASE("Sizes may be read with the radius that the nose gives") {
    // Nose of 2: the setback is 3.5, and a leg drawn 36 for a radius of 1 comes out 37 with the same flat.
    const Part drawn = channel();
    const Part now = asMade(drawn, {sized(drawn, "left", 37)}, 0, 2).value();
    checkSamePart(drawn, now);
}

TEST_CASE("Corner reliefs that are long enough let a line move without tearing") {
    const Part wide = develop(tray(6)).value();
    CHECK(made(wide, {sized(wide, "left", 30.8)}).warnings == wide.warnings);
    const Part none = develop(tray(0)).value();
    const Part torn = made(none, {sized(none, "left", 30.8)});
    REQUIRE(torn.warnings.size() > none.warnings.size());
    CHECK(torn.warnings.back().find("tears or bulges") != std::string::npos);
}

TEST_CASE("A strip that runs into a window is parted by it") {
    Recipe recipe = plate(80, 120, 1.5, 1, Measured::kOutside);
    addFlange(recipe, "left", "base.left", 36);
    CutOut window;
    window.name = "window";
    window.on = "base";
    window.shape = CutOutShape::kRectangle;
    window.width = Dimension::of(20);
    window.height = Dimension::of(30);
    window.at[0] = {"left", Datum::kOutside, Dimension::of(16), To::kCentre, ""};
    window.at[1] = {"front", Datum::kEdge, Dimension::of(60), To::kCentre, ""};
    recipe.cut_outs.push_back(window);
    const Part drawn = develop(recipe).value();
    REQUIRE(drawn.bends[0].spans.size() == 1);
    // The window's near side is 6 from the outside of left, 3.5 from the start of the bend.
    const Part clear = made(drawn, {sized(drawn, "left", 38)});
    CHECK(clear.bends[0].spans.size() == 1);
    const Part parted = made(drawn, {sized(drawn, "left", 44)});
    REQUIRE(parted.bends[0].spans.size() == 2);
    CHECK(stripLength_mm(parted.bends[0]) == Approx(90));
    CHECK(area(parted) == Approx(area(drawn)));
    // Most of it is past the line now.
    const Part beyond = made(drawn, {sized(drawn, "left", 60)});
    CHECK(beyond.panel(beyond.cut_outs[0].panel).name == "left");
    CHECK(drawn.panel(drawn.cut_outs[0].panel).name == "base");
}

TEST_CASE("The return of a hem has a size, and no angle") {
    Recipe recipe = plate(80, 120, 1.5, 1, Measured::kOutside);
    addFlange(recipe, "left", "base.left", 36);
    addFlange(recipe, "hem", "left.far", 10).hem_gap_mm = 0.0;
    const Part drawn = develop(recipe).value();
    // A closed hem's outside is one thickness past its strip: flat 8.5, measured 9.6 leaves 8.1.
    const Part now = made(drawn, {sized(drawn, "hem", 9.6)});
    CHECK(area_mm2(panelOf(now, "hem").region) == Approx(8.1 * 120));
    CHECK(area_mm2(panelOf(now, "left").region) == Approx(area_mm2(panelOf(drawn, "left").region) + 0.4 * 120));
    CHECK(hasCode(refused(drawn, {turned(drawn, "hem", 170)}), "made.angle"));
    // The flange before it is measured to the folded edge.
    const Part wall = made(drawn, {sized(drawn, "left", 36)}, allFormed(drawn));
    checkSamePart(drawn, wall);
}

TEST_CASE("What cannot be is refused, with what was measured") {
    const Part drawn = channel();
    const auto code = [&](const std::vector<MadeBend>& bends) { return refused(drawn, bends).front().code; };
    CHECK(code({sized(drawn, "left", 2)}) == "made.size");
    CHECK(code({sized(drawn, "left", -5)}) == "made.size");
    CHECK(code({sized(drawn, "left", 1e7)}) == "made.size");
    CHECK(code({sized(drawn, "left", std::nan(""))}) == "made.size");
    CHECK(code({turned(drawn, "left", 0)}) == "made.angle");
    CHECK(code({turned(drawn, "left", 180)}) == "made.angle");
    CHECK(code({turned(drawn, "left", std::nan(""))}) == "made.angle");
    // Past the web: onto the other strip, and off the sheet.
    CHECK(code({sized(drawn, "left", 36 + 75 + 1)}) == "made.panel");
    CHECK(code({sized(drawn, "left", 500)}) == "made.sheet");
    CHECK(refused(drawn, {sized(drawn, "left", 500)}).front().found.starts_with("500 mm: "));
    // Two at once: both are told.
    CHECK(refused(drawn, {sized(drawn, "left", 2), sized(drawn, "right", 2)}).size() == 2);
}

TEST_CASE("A flange without a straight edge along its bend cannot be measured") {
    Recipe recipe = plate(80, 120, 1.5, 1, Measured::kOutside);
    Flange& flange = addFlange(recipe, "left", "base.left", 36);
    flange.left_mitre_deg = 58;
    flange.right_mitre_deg = 58;
    const Part drawn = develop(recipe).value();
    const double far_mm = (edgeOf(drawn, "left.far").to - edgeOf(drawn, "left.far").from).norm();
    Part pointed = drawn;
    std::erase_if(pointed.edges, [](const NamedEdge& edge) { return edge.name == "left.far"; });
    CHECK(far_mm > 5);
    CHECK(hasCode(refused(pointed, {sized(pointed, "left", 36)}), "made.edge"));
}

TEST_CASE("Whatever was measured: sheet is conserved, sizes come out as given, nothing breaks") {
    std::mt19937_64 engine(7);
    const auto between = [&](double lo, double hi) {
        return lo + (hi - lo) * static_cast<double>(engine() >> 11) * 0x1p-53;
    };
    int taken = 0, said_no = 0;
    for (int round = 0; round < 150; ++round) {
        Recipe recipe = tray(round % 3 == 0 ? 0 : between(2, 8));
        recipe.sheet.thickness_mm = between(0.8, 2.5);
        recipe.inside_radius_mm = between(0.2, 3);
        recipe.allowance.rule = round % 2 == 0 ? AllowanceRule::kKFactor : AllowanceRule::kDin6935;
        for (Flange& flange : recipe.flanges) flange.angle_deg = round % 5 == 0 ? between(30, 90) : 90;
        const Result<Part> developed = develop(recipe);
        if (!developed) continue;
        const Part& drawn = developed.value();
        std::vector<MadeBend> bends;
        for (std::size_t i = 0; i < drawn.bends.size(); ++i) {
            MadeBend bend{idAt<BendId>(i), std::nullopt, std::nullopt};
            const double off = round % 4 == 0 ? 40 : 1.5;
            const double size_mm = drawn.bends[i].name == "lip" ? 12 : 30;
            if (between(0, 1) < 0.5) bend.outside_mm = size_mm + between(-off, off);
            if (between(0, 1) < 0.3) bend.angle = Angle::degrees(drawn.bends[i].angle.deg() + between(-4, 4));
            if (bend.outside_mm || bend.angle) bends.push_back(bend);
        }
        INFO("round " << round);
        const Result<Part> result = asMade(drawn, bends, 0);
        if (!result) {
            ++said_no;
            for (const Issue& issue : result.issues()) CHECK(issue.code.starts_with("made."));
            continue;
        }
        ++taken;
        const Part& now = result.value();
        BendMask formed = 0;
        for (const MadeBend& bend : bends) formed |= bit(bend.bend);
        for (const MadeBend& bend : bends) {
            if (!bend.outside_mm) continue;
            const auto end = legEnd(now, bend.bend, Side::kChild, formed);
            REQUIRE(end);
            CHECK(legSize_mm(now, bend.bend, *end, Face::kOutside) == Approx(*bend.outside_mm).margin(1e-9));
            if (!end->bend && end->beyond == now.bend(bend.bend).child)
                CHECK(measured_mm(now, bend.bend, edgeOf(now, end->edge)) == Approx(*bend.outside_mm).margin(1e-9));
        }
        for (const Panel& panel : now.panels) CHECK(isValid(panel.region));
        // Strips overlap nothing and leave nothing out, but for what a relief has taken of their ends.
        CHECK(area(now) == Approx(area(drawn)).margin(0.02 * area(drawn)));
    }
    CHECK(taken > 40);
    CHECK(said_no > 5);
}
