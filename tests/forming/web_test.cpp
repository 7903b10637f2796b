// SPDX-License-Identifier: GPL-3.0-or-later
// The web check by hand formulas of the strength of materials, and by what must hold for any leg.
#include <catch2/catch.hpp>

#include <cmath>
#include <cstdio>
#include <random>

#include <tinwright/forming/metal/bending.h>
#include <tinwright/forming/webs/cut_out_cures.h>

#include "legs.h"
#include "sample_parts.h"
#include "webs/web_trouble.h"

using namespace tinwright;
using namespace tinwright::forming;
using namespace tinwright::test;

namespace {

constexpr double kThickness_mm = 1.5;

/// y where the leaf bears on a leg that begins at y = 0.
double bearing_mm(double reach_mm) { return 0.99 * reach_mm; }

Leg scaled(Leg leg, double by) {
    for (Vec2& point : leg.solid.outline) point *= by;
    for (LegCutOut& cut_out : leg.cut_outs) {
        for (Vec2& point : cut_out.outline) point *= by;
    }
    leg.from_mm *= by, leg.to_mm *= by, leg.bend_mm *= by, leg.depth_mm *= by, leg.strip_mm *= by;
    return leg;
}

struct Window {
    double width, depth, left, right, low, high;
};

Window randomWindow(std::mt19937& random) {
    const auto between = [&](double a, double b) {
        return a + (b - a) * static_cast<double>(random() % 10'000) / 10'000;
    };
    Window w{};
    w.width = between(40, 200);
    w.depth = between(20, 80);
    w.left = between(3, 0.4 * w.width);
    w.right = between(0.6 * w.width, w.width - 3);
    w.low = between(2, 0.3 * w.depth);
    w.high = between(0.4 * w.depth, 0.9 * w.depth);
    return w;
}

double ratioOf(const Leg& leg, const LegLoad& load) {
    const auto worst = worstSection(leg, load);
    return worst ? worst->ratio() : 0;
}

}  // namespace

TEST_CASE("a window in the middle: demand and capacity by hand") {
    // 100 wide, window 60 wide from y = 8: two webs of 20 mm (wide: over 8 t = 12). M falls linearly to where the leaf
    // bears.
    const Leg leg = legWith(100, 40, {box(20, 8, 80, 18)});
    const LegLoad load{25, 1.1, kThickness_mm};
    const auto section = sectionAt(leg, load, {Vec2::UnitY(), 8.01});
    REQUIRE(section);
    CHECK(section->net_mm == Approx(40));
    CHECK(section->gross_mm == Approx(100));
    CHECK(section->demand_mm == Approx(1.1 * kPlaneStrain * 100 * (1 - 8.01 / bearing_mm(25))));
    CHECK(section->capacity_mm == Approx(kPlaneStrain * 40));
    CHECK(worstSection(leg, load)->ratio() >= section->ratio() - 1e-3);
}

TEST_CASE("narrow webs carry no more than a strip that is free to shrink") {
    CHECK(webCapacity_mm(11.9, 1.5) == Approx(11.9));
    CHECK(webCapacity_mm(12, 1.5) == Approx(12 * kPlaneStrain));
}

TEST_CASE("onset of bowing: first yield is at two thirds of the plastic moment") {
    // Choose the web so that the ratio at the window's near edge is just under, and just over, 2/3 (strength of
    // materials: w t²/6 against w t²/4).
    const Strength strength{
        .yield_mpa = 235, .flow_mpa = 235, .most_tensile_mpa = 510, .tensile_is_least = false, .modulus_mpa = 210e3};
    const LegLoad load{25, 1.0, kThickness_mm};
    const auto bowOf = [&](double web_mm) {
        return residualBow(legWith(100, 40, {box(web_mm, 10, 100 - web_mm, 20)}), load, strength, 0).deg();
    };
    const double demand = 100 * (1 - 10 / bearing_mm(25));
    const double at_first_yield_mm = demand * 1.5 / 2;  // of each of the two webs
    CHECK(bowOf(at_first_yield_mm * 1.001) == 0);
    CHECK(bowOf(at_first_yield_mm * 0.98) > 0);
    CHECK(bowOf(at_first_yield_mm * 0.8) > bowOf(at_first_yield_mm * 0.9));
}

TEST_CASE("the set of a web by the closed form for a constant moment") {
    // A window so shallow that the moment hardly falls over it: set = (1/sqrt(3 - 2m) - m) 2 sigma/(E t) times its
    // depth.
    const Strength strength{
        .yield_mpa = 250, .flow_mpa = 250, .most_tensile_mpa = 400, .tensile_is_least = false, .modulus_mpa = 200e3};
    const LegLoad load{100, 1.0, kThickness_mm};
    const Leg leg = legWith(100, 100, {box(30, 10, 70, 10.1)});
    const double m = 1.5 * sectionAt(leg, load, {Vec2::UnitY(), 10.05})->ratio();
    REQUIRE(m > 1);
    if (m < 1.5)
        CHECK(residualBow(leg, load, strength, 0).rad() ==
              Approx((1 / std::sqrt(3 - 2 * m) - m) * 2 * 250 / (200e3 * kThickness_mm) * 0.1).epsilon(0.02));
}

TEST_CASE("a longer web is never worse, nor a longer way from the bend for the whole leg") {
    std::mt19937 random(20'251);
    for (int i = 0; i < 60; ++i) {
        const Window w = randomWindow(random);
        CAPTURE(i, w.width, w.depth, w.left, w.right, w.low, w.high);
        const LegLoad load{25, 1.1, kThickness_mm};
        const double before = ratioOf(legWith(w.width, w.depth, {box(w.left, w.low, w.right, w.high)}), load);
        const double narrower = ratioOf(legWith(w.width, w.depth, {box(w.left + 1, w.low, w.right - 1, w.high)}), load);
        CHECK(narrower <= before + 1e-9);
    }
}

TEST_CASE("scaled in all lengths and thickness, ratios stay and moments grow with the cube") {
    std::mt19937 random(77);
    for (int i = 0; i < 30; ++i) {
        const Window w = randomWindow(random);
        CAPTURE(i);
        const Leg leg = legWith(w.width, w.depth, {box(w.left, w.low, w.right, w.high)});
        const LegLoad load{25, 1.2, kThickness_mm};
        const LegLoad load2{50, 1.2, 2 * kThickness_mm};
        const auto section = worstSection(leg, load);
        const auto twice = worstSection(scaled(leg, 2), load2);
        REQUIRE(section.has_value() == twice.has_value());
        if (!section) continue;
        CHECK(twice->ratio() == Approx(section->ratio()).epsilon(1e-9));
        const auto moment = [](const WebSection& s, double t) { return s.demand_mm * plasticMoment_nmm(280, 1, t); };
        CHECK(moment(*twice, 2 * kThickness_mm) == Approx(8 * moment(*section, kThickness_mm)).epsilon(1e-9));
    }
}

TEST_CASE("two windows in step: an oblique line through both is worse than a parallel one through either") {
    const Leg leg = legWith(100, 40, {box(3, 6, 48, 16), box(52, 17, 97, 27)});
    const LegLoad load{35, 1.1, kThickness_mm};
    const auto worst = worstSection(leg, load);
    REQUIRE(worst);
    CHECK(std::abs(worst->line.normal.x()) > 0.01);
    CHECK(worst->net_mm < 20);
}

TEST_CASE("small holes are left to the rules of distance") {
    CHECK_FALSE(worstSection(legWith(100, 30, {box(45, 8, 52, 15)}), {25, 1.1, kThickness_mm}));
}

TEST_CASE("past the leaf there is no moment") {
    const Strength steel{
        .yield_mpa = 280, .flow_mpa = 310, .most_tensile_mpa = 410, .tensile_is_least = false, .modulus_mpa = 210e3};
    CHECK_FALSE(swungTrouble(legWith(100, 120, {box(5, 30, 95, 60)}), {25, 1.1, kThickness_mm}, steel));
    CHECK(swungTrouble(legWith(100, 120, {box(5, 30, 95, 60)}), {60, 1.1, kThickness_mm}, steel)->id == "web.folds");
}

TEST_CASE("folding, bowing and neither, as a window narrows; a fault when the webs are weaker than the bend itself") {
    const Strength steel{
        .yield_mpa = 280, .flow_mpa = 310, .most_tensile_mpa = 410, .tensile_is_least = false, .modulus_mpa = 210e3};
    const LegLoad load{25, steel.hardening(), kThickness_mm};
    const auto trouble = [&](double web_mm) {
        return swungTrouble(legWith(100, 40, {box(web_mm, 8, 100 - web_mm, 20)}), load, steel);
    };
    CHECK(trouble(10)->id == "web.folds");
    CHECK(trouble(10)->severity == Severity::kFault);
    CHECK(trouble(35.5)->severity == Severity::kWarning);
    CHECK(trouble(38)->id == "web.bows");
    CHECK_FALSE(trouble(42));  // 16 % are cut, and no set is left that is seen
}

TEST_CASE("land under the nose: by plastic torsion of the strip (Nadai) a window is some strip depths long") {
    // w = 2 T / M0 with T = sigma/sqrt(3) t² (3d - t)/6 and M0 = h 2/sqrt(3) sigma t²/4: w = 4 (3 d - t) / (6 h)
    CHECK(longestWindow_mm(3, 1.5, 1.0) == Approx(4 * (3 * 3 - 1.5) / 6));
    CHECK(longestWindow_mm(3, 1.5, 1.5) == Approx(4 * (3 * 3 - 1.5) / 9));
    CHECK(longestWindow_mm(0.4, 1.5, 1.0) == 0);
    const HeldLoad clamp{1, 6, 1.1, kThickness_mm};
    CHECK(heldTrouble(legWith(100, 60, {box(20, 2, 80, 30)}), clamp));
    CHECK_FALSE(heldTrouble(legWith(100, 60, {box(20, 5, 80, 30)}), clamp));  // 5 and the nose radius are 6
    CHECK_FALSE(heldTrouble(legWith(100, 60, {box(48, 2, 52, 30)}), clamp));  // a narrow slot
}

TEST_CASE("remedies are the smallest that cure, each computed again") {
    const Strength steel{
        .yield_mpa = 280, .flow_mpa = 310, .most_tensile_mpa = 410, .tensile_is_least = false, .modulus_mpa = 210e3};
    const LegLoad load{25, steel.hardening(), kThickness_mm};
    const LegTrouble again = [&](const Leg& leg) { return swungTrouble(leg, load, steel); };
    Part part = sectionPart(angleSection(60, 60, 100));
    const double start_mm = 60 + part.bends.front().allowance_mm;
    cut(part, 1, "window", rectangle(15, start_mm + 8, 85, start_mm + 20));
    const BendId bend = idAt<BendId>(0);
    const Leg leg = legOf(part, bend, Side::kChild);
    const auto trouble = again(leg);
    REQUIRE(trouble);
    Finding finding;
    addWebCures(part, leg, *trouble, bend, Side::kChild, again, finding);
    REQUIRE(finding.cures.size() >= 3);
    CHECK(finding.remedies.back() == "cut window after folding");
    const auto left = [&](CutOutCure cure, double less_mm) {
        cure.by_mm -= less_mm;
        const std::optional<Part> changed = withCure(part, cure);
        REQUIRE(changed);
        return again(legOf(*changed, bend, Side::kChild));
    };
    constexpr double kStep_mm = 0.5;
    for (const CutOutCure& cure : finding.cures) {
        const auto cured = left(cure, 0);
        CHECK((!cured || cured->severity == Severity::kNote));
        if (cure.kind == CutOutCure::Kind::kCutAfter || cure.by_mm <= 2) continue;  // no tab is narrower than 2 mm
        const auto less = left(cure, kStep_mm);
        CHECK((less && less->severity != Severity::kNote));
    }
}

TEST_CASE("a changed cut-out stays on its panel, or it is no cure") {
    Part part = sectionPart(angleSection(60, 60, 100));
    const double start_mm = 60 + part.bends.front().allowance_mm;
    cut(part, 1, "window", rectangle(15, start_mm + 8, 85, start_mm + 20));
    CutOutCure cure{CutOutCure::Kind::kMoved, 0, idAt<BendId>(0), Side::kChild, 10, 0};
    const double before_mm2 = area_mm2(part.blank);
    const auto moved = withCure(part, cure);
    REQUIRE(moved);
    CHECK(area_mm2(moved->blank) == Approx(before_mm2));
    CHECK(area_mm2(moved->panels[1].region) == Approx(area_mm2(part.panels[1].region)));
    cure.by_mm = 45;  // past the panel's edge
    CHECK_FALSE(withCure(part, cure));
    cure.kind = CutOutCure::Kind::kCutAfter;
    const auto whole = withCure(part, cure);
    REQUIRE(whole);
    CHECK(whole->cut_outs.empty());
    CHECK(area_mm2(whole->blank) == Approx(before_mm2 + 70 * 12));
    cure = {CutOutCure::Kind::kBridged, 0, idAt<BendId>(0), Side::kChild, 4, 2};
    const auto tabs = withCure(part, cure);
    REQUIRE(tabs);
    CHECK(tabs->cut_outs.size() == 3);
    CHECK(area_mm2(tabs->blank) == Approx(before_mm2 + 2 * 4 * 12));
}
