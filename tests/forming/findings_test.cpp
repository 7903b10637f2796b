// SPDX-License-Identifier: GPL-3.0-or-later
// What each check says, and that it is silent where a fabricator would be.
#include <catch2/catch.hpp>

#include <cmath>
#include <cstdio>
#include <numbers>

#include <tinwright/forming/rules/rules.h>

#include "sample_parts.h"

using namespace tinwright;
using namespace tinwright::test;

namespace {

const Shop kShop = [] {
    Shop shop;
    shop.name = "shop";
    return shop;
}();

/// Strip and nose of an angle 60/40: the bend's strip begins at y = 60.
Part angle(double length_mm = 100) { return sectionPart(angleSection(60, 40, length_mm)); }
double strip_mm(const Part& part) { return part.bends[0].allowance_mm; }

NamedCutOut hole(double x, double y, double diameter_mm, std::size_t panel) {
    NamedCutOut cut_out{.name = "hole",
                        .panel = idAt<PanelId>(panel),
                        .outline = {},
                        .round = RoundHole{{x, y}, diameter_mm},
                        .is_notch = false};
    for (int i = 0; i < 48; ++i)
        cut_out.outline.emplace_back(x + diameter_mm / 2 * std::cos(i * std::numbers::pi / 24),
                                     y + diameter_mm / 2 * std::sin(i * std::numbers::pi / 24));
    return cut_out;
}

}  // namespace

TEST_CASE("a plain angle of mild steel has no fault and no warning") {
    const Part part = angle();
    const Material steel = shipped("mild-steel");
    for (const std::vector<Finding>& findings : {partFindings(part, &steel),
                                                 brakeFindings(partOnBrake(part, kShop, brakeOf(ClampKind::kOnBeam)),
                                                               &steel, kShop, brakeOf(ClampKind::kOnBeam)),
                                                 webFindings(part, &steel)}) {
        for (const Finding& finding : findings) {
            INFO(finding.id << " " << finding.words);
            CHECK(finding.severity == Severity::kNote);
        }
    }
}

TEST_CASE("findings are sorted, known by their rules, and name their brake") {
    Part part = angle();
    cut(part, 1, "window", rectangle(5, 60 + strip_mm(part) + 1, 95, 60 + strip_mm(part) + 15));
    part.thickness_mm = 2.5;
    const Material steel = shipped("s355jr");
    std::vector<Finding> all = partFindings(part, &steel);
    const std::vector<Finding> of_brake = brakeFindings(partOnBrake(part, kShop, brakeOf(ClampKind::kOnBeam)), &steel,
                                                        kShop, brakeOf(ClampKind::kOnBeam));
    for (const Finding& finding : of_brake) CHECK(finding.brake == "brake");
    all.insert(all.end(), of_brake.begin(), of_brake.end());
    sortFindings(all);
    REQUIRE(all.size() > 4);
    for (std::size_t i = 0; i < all.size(); ++i) {
        INFO(all[i].id);
        CHECK(findRule(all[i].id));
        CHECK_FALSE(all[i].feature.empty());
        CHECK_FALSE(all[i].words.empty());
        if (all[i].severity != Severity::kNote) CHECK_FALSE(all[i].remedies.empty());
        if (i > 0) CHECK(all[i - 1].severity >= all[i].severity);
    }
}

TEST_CASE(
    "a hole near a bend: 1.5 t from the start of the bend, and the remedy is just enough (stamping design guide)") {
    Part part = angle();
    const double start = 60 + strip_mm(part);
    part.cut_outs = {hole(50, start + 1.5 + 2.5, 5, 1)};
    const Finding* near = findingOf(partFindings(part, nullptr), "hole.near-bend");
    const std::vector<Finding> findings = partFindings(part, nullptr);
    near = findingOf(findings, "hole.near-bend");
    REQUIRE(near);
    CHECK(near->severity == Severity::kWarning);
    CHECK(near->figures[0].value == Approx(1.5).margin(0.01));
    CHECK(*near->figures[0].limit == Approx(2.25));
    CHECK(hasText(near->remedies, "move it 0.8 mm away"));
    part.cut_outs = {hole(50, start + 2.26 + 2.5, 5, 1)};
    CHECK_FALSE(findingOf(partFindings(part, nullptr), "hole.near-bend"));
}

TEST_CASE("a hole in a bend is a fault, a window across it a warning, and a notch at its end is a relief") {
    Part part = angle();
    part.cut_outs = {hole(50, 60 + strip_mm(part) / 2, 5, 1)};
    const std::vector<Finding> oval = partFindings(part, nullptr);
    REQUIRE(findingOf(oval, "hole.in-bend"));
    CHECK(findingOf(oval, "hole.in-bend")->severity == Severity::kFault);
    part.cut_outs[0].round = std::nullopt;
    part.cut_outs[0].outline = rectangle(40, 55, 60, 70);
    CHECK(findingOf(partFindings(part, nullptr), "hole.in-bend")->severity == Severity::kWarning);
    part.cut_outs[0].is_notch = true;
    CHECK_FALSE(findingOf(partFindings(part, nullptr), "hole.in-bend"));
}

TEST_CASE("longer edges want more distance: 2 t, 2.5 t and 3 t") {
    for (const auto& [edge_mm, thicknesses] : std::vector<std::pair<double, double>>{{25, 2}, {40, 2.5}, {60, 3}}) {
        Part part = angle();
        const double start = 60 + strip_mm(part);
        part.cut_outs = {{.name = "window",
                          .panel = idAt<PanelId>(1),
                          .outline = rectangle(20, start + 1, 20 + edge_mm, start + 9),
                          .round = {},
                          .is_notch = false}};
        const std::vector<Finding> findings = partFindings(part, nullptr);
        REQUIRE(findingOf(findings, "hole.near-bend"));
        CHECK(*findingOf(findings, "hole.near-bend")->figures[0].limit == Approx(thicknesses * 1.5));
    }
}

TEST_CASE("a bend that runs into a slanted edge") {
    Part part = angle();
    part.blank.outline = {{0, 0}, {100, 0}, {130, 100}, {0, 100}};  // leans by about 17 degrees
    const std::vector<Finding> findings = partFindings(part, nullptr);
    const Finding* edge = findingOf(findings, "bend.edge");
    REQUIRE(edge);
    CHECK(edge->severity == Severity::kNote);
    CHECK(edge->figures[0].value == Approx(std::atan(0.3) * 180 / std::numbers::pi).margin(0.1));
    part.blank.outline[2].x() = 105;
    CHECK_FALSE(findingOf(partFindings(part, nullptr), "bend.edge"));
}

TEST_CASE("a slit at the end of a bend that is narrower than the sheet") {
    Part part = angle();
    part.bends[0].spans = {{0, 80}};
    part.blank = difference(part.blank, {rectangle(80, 55, 81, 101)}).front();
    const std::vector<Finding> findings = partFindings(part, nullptr);
    REQUIRE(findingOf(findings, "relief.narrow"));
    CHECK(findingOf(findings, "relief.narrow")->figures[0].value == Approx(1));
    part.blank = difference(part.blank, {rectangle(80, 55, 81.6, 101)}).front();
    CHECK_FALSE(findingOf(partFindings(part, nullptr), "relief.narrow"));
}

TEST_CASE(
    "a radius under the table's: a note for drawing steel, a warning for structural steel; the grain matters (DIN "
    "6935, EN 10025-2)") {
    Section section = angleSection(60, 40, 100);
    section.inside_radius_mm = 1.0;
    Part part = sectionPart(section);
    const Material dc01 = shipped("dc01");
    const Material s355 = shipped("s355jr");
    CHECK(findingOf(partFindings(part, &dc01), "radius.small")->severity == Severity::kNote);
    CHECK(findingOf(partFindings(part, &s355), "radius.small")->severity == Severity::kWarning);
    part.bends[0].inside_radius_mm = 1.6;
    CHECK_FALSE(findingOf(partFindings(part, &dc01), "radius.small"));
    part.grain_deg = 0.0;  // along the bend
    REQUIRE(findingOf(partFindings(part, &dc01), "radius.small"));
    CHECK(*findingOf(partFindings(part, &dc01), "radius.small")->figures[0].limit == 2.5);
    part.grain_deg = 90.0;
    CHECK_FALSE(findingOf(partFindings(part, &dc01), "radius.small"));
    part.bends[0].inside_radius_mm = 0.5;  // under half a thickness
    CHECK(findingOf(partFindings(part, &dc01), "radius.small")->severity == Severity::kWarning);
}

TEST_CASE("a nose too sharp for the metal, whatever is drawn") {
    Section section = angleSection(60, 40, 100);
    section.inside_radius_mm = 8;  // the table wants 6 for 2024-T3 of 1.5 mm
    const Part part = sectionPart(section);
    const Material hard = shipped("2024-t3");
    REQUIRE(findingOf(
        brakeFindings(partOnBrake(part, kShop, brakeOf(ClampKind::kOnBeam)), &hard, kShop, brakeOf(ClampKind::kOnBeam)),
        "radius.nose"));
    const Material soft = shipped("dc01");
    CHECK_FALSE(findingOf(
        brakeFindings(partOnBrake(part, kShop, brakeOf(ClampKind::kOnBeam)), &soft, kShop, brakeOf(ClampKind::kOnBeam)),
        "radius.nose"));
}

TEST_CASE(
    "the leaf's limit: a fault when it never gets there, a warning when springback takes the rest; the shop's own "
    "overbend counts") {
    Section section = angleSection(60, 40, 100);
    Brake brake = brakeOf(ClampKind::kOnBeam);
    Shop shop = kShop;
    section.angles_deg = {136};
    CHECK(findingOf(brakeFindings(partOnBrake(sectionPart(section), shop, brake), nullptr, shop, brake), "angle.leaf")
              ->severity == Severity::kFault);
    section.angles_deg = {133};
    CHECK(findingOf(brakeFindings(partOnBrake(sectionPart(section), shop, brake), nullptr, shop, brake), "angle.leaf")
              ->severity == Severity::kWarning);
    shop.overbend.by_material_deg["mild-steel"] = 1;
    CHECK_FALSE(
        findingOf(brakeFindings(partOnBrake(sectionPart(section), shop, brake), nullptr, shop, brake), "angle.leaf"));
}

TEST_CASE("a default overbend is held against the table, a measured one is not") {
    Section section = angleSection(60, 40, 100);
    section.inside_radius_mm = 15;
    section.material = "1.4301";
    const Part part = sectionPart(section);
    const Material stainless = shipped("1.4301");
    Shop shop = kShop;
    CHECK(findingOf(brakeFindings(partOnBrake(part, shop, brakeOf(ClampKind::kOnBeam)), &stainless, shop,
                                  brakeOf(ClampKind::kOnBeam)),
                    "angle.overbend"));
    shop.overbend.by_material_deg["1.4301"] = 6;
    CHECK_FALSE(findingOf(brakeFindings(partOnBrake(part, shop, brakeOf(ClampKind::kOnBeam)), &stainless, shop,
                                        brakeOf(ClampKind::kOnBeam)),
                          "angle.overbend"));
}

TEST_CASE(
    "rating: moments go with strength and thickness squared; over it on each mm or in all is an overload, longer "
    "alone a warning") {
    const Material steel = shipped("mild-steel");
    const Material stainless = shipped("1.4301");
    const Brake brake = brakeOf(ClampKind::kOnBeam);
    Section section = angleSection(60, 40, 100);
    const std::vector<Finding> within =
        brakeFindings(partOnBrake(sectionPart(section), kShop, brake), &steel, kShop, brake);
    REQUIRE(findingOf(within, "force.moment"));
    const Finding& heaviest = *findingOf(within, "force.moment");
    CHECK(heaviest.figures[2].value == Approx(1.5 * 1.5 / (1.6 * 1.6)));
    // M = 2/sqrt(3) Rm w t²/4, at the edge of a leaf face of 25 mm
    CHECK(heaviest.figures[0].value == Approx(1.1547005 * 410 * 100 * 1.5 * 1.5 / 4 / 1000).epsilon(1e-6));
    CHECK(heaviest.figures[1].value == Approx(heaviest.figures[0].value * 1000 / 25));
    section.material = "1.4301";
    const std::vector<Finding> shorter =
        brakeFindings(partOnBrake(sectionPart(section), kShop, brake), &stainless, kShop, brake);
    CHECK(findingOf(shorter, "force.rating")->severity == Severity::kOverload);
    CHECK(findingOf(shorter, "force.rating")->figures[0].value == Approx(750.0 / 410 * 2.25 / 2.56));
    CHECK(findingOf(shorter, "force.rating")->figures[1].value == Approx(750.0 / 410 * 2.25 / 2.56 * 100 / 1250));
    section.length_mm = 1200;
    CHECK(findingOf(brakeFindings(partOnBrake(sectionPart(section), kShop, brake), &stainless, kShop, brake),
                    "force.rating")
              ->severity == Severity::kOverload);
    section.material = "mild-steel";
    section.length_mm = 1251;
    const std::vector<Finding> longer =
        brakeFindings(partOnBrake(sectionPart(section), kShop, brake), &steel, kShop, brake);
    REQUIRE(findingOf(longer, "force.rating"));
    CHECK(findingOf(longer, "force.rating")->severity == Severity::kWarning);
    CHECK(findingOf(longer, "force.rating")->words.find("longer than the 1250 mm") != std::string::npos);
}

// 350 MPa (EN 485-2) on 2 mm against 410 MPa (EN 10130) on 1.2 mm: 350 / 410 x (2 / 1.2)^2 = 2.37 on each mm; 300 mm of
// the 1000 mm that are rated: 0.71 in all.
TEST_CASE("2 mm of 5083 on a brake that is rated for 1.2 mm is an overload: 237 % of the moment on each mm") {
    Brake brake = brakeOf(ClampKind::kOnBeam);
    brake.ratings = {{"mild-steel", 1.2, 1000}};
    const Material metal = shipped("5083-h111");
    const auto overload = [&](double length_mm) {
        Section section = angleSection(60, 40, length_mm);
        section.material = "5083-h111";
        section.thickness_mm = 2;
        section.inside_radius_mm = 2;
        const std::vector<Finding> findings =
            brakeFindings(partOnBrake(sectionPart(section), kShop, brake), &metal, kShop, brake);
        REQUIRE_FALSE(findings.empty());
        CHECK(findings.front().id == "force.rating");  // said first
        return findings.front();
    };
    const Finding finding = overload(300);
    CHECK(finding.severity == Severity::kOverload);
    CHECK(std::string(toText(finding.severity)) == "overload");
    CHECK(finding.figures[0].name == "moment_share");
    CHECK(finding.figures[0].value == Approx(350.0 / 410 * 4 / 1.44));
    CHECK(finding.figures[1].value == Approx(350.0 / 410 * 4 / 1.44 * 0.3));
    CHECK(finding.words.find("237 % of the moment that the brake is rated for on each mm") != std::string::npos);
    CHECK(finding.words.find("71 % of it altogether") != std::string::npos);
    CHECK(overload(900).figures[1].value == Approx(350.0 / 410 * 4 / 1.44 * 0.9));
}

TEST_CASE("without numbers of the metal nothing is guessed, and it is said once") {
    const Part part = angle();
    const std::vector<Finding> findings = partFindings(part, nullptr);
    CHECK(std::count_if(findings.begin(), findings.end(),
                        [](const Finding& f) { return f.id == "material.unknown"; }) == 1);
    CHECK_FALSE(findingOf(findings, "angle.springback"));
    CHECK(findingOf(brakeFindings(partOnBrake(part, kShop, brakeOf(ClampKind::kOnBeam)), nullptr, kShop,
                                  brakeOf(ClampKind::kOnBeam)),
                    "force.unknown"));
}

TEST_CASE("a short flange and a small step") {
    const Brake brake = brakeOf(ClampKind::kOnBeam);
    Section section = angleSection(60, 3, 100);  // 3 + r + t = 6 outside; wanted 4 t + 1 = 7
    section.inside_radius_mm = 1.5;
    const std::vector<Finding> flange =
        brakeFindings(partOnBrake(sectionPart(section), kShop, brake), nullptr, kShop, brake);
    REQUIRE(findingOf(flange, "flange.short"));
    CHECK(findingOf(flange, "flange.short")->figures[0].value == Approx(6));
    CHECK(*findingOf(flange, "flange.short")->figures[0].limit == Approx(7));
    section.flats_mm = {30, 9, 30};
    section.angles_deg = {90, -90};
    const std::vector<Finding> step =
        brakeFindings(partOnBrake(sectionPart(section), kShop, brake), nullptr, kShop, brake);
    REQUIRE(findingOf(step, "bend.near-bend"));
    CHECK(findingOf(step, "bend.near-bend")->figures[0].value == Approx(9 + 3 + 1.5));
    CHECK(*findingOf(step, "bend.near-bend")->figures[0].limit == Approx(12 + 1.5 + 1));
    section.angles_deg = {90, 90};
    CHECK_FALSE(findingOf(brakeFindings(partOnBrake(sectionPart(section), kShop, brake), nullptr, kShop, brake),
                          "bend.near-bend"));
}

TEST_CASE("A leaf brake gives the radius of its nose, and a part that is drawn with another is told so") {
    Section section = angleSection(60, 40, 100);
    const auto drawn = [&](double radius_mm) {
        section.inside_radius_mm = radius_mm;
        const Part part = sectionPart(section);
        return brakeFindings(partOnBrake(part, kShop, brakeOf(ClampKind::kOnBeam)), nullptr, kShop,
                             brakeOf(ClampKind::kOnBeam));
    };
    const double nose_mm = brakeOf(ClampKind::kOnBeam).leaf().nose_radius_mm;
    CHECK_FALSE(findingOf(drawn(nose_mm), "radius.drawn"));
    CHECK_FALSE(findingOf(drawn(nose_mm + 0.04), "radius.drawn"));
    const std::vector<Finding> note = drawn(nose_mm + 0.5);
    REQUIRE(findingOf(note, "radius.drawn"));
    CHECK(findingOf(note, "radius.drawn")->severity == Severity::kNote);
    CHECK(findingOf(note, "radius.drawn")->words.find("inside radius of the nose, 1 mm") != std::string::npos);
    CHECK(*findingOf(note, "radius.drawn")->figures[0].limit == nose_mm);
    CHECK(findingOf(drawn(nose_mm + 1), "radius.drawn")->severity == Severity::kWarning);  // over half a thickness
}

TEST_CASE("a Z whose step is the base is the same Z") {
    // The base 9 mm between the bends, one flange up at one end and one down at the other: as the chain of panels
    // above.
    Part part = sectionPart([] {
        Section section;
        section.flats_mm = {30, 9, 30};
        section.angles_deg = {90, -90};
        return section;
    }());
    const Finding chain = *findingOf(brakeFindings(partOnBrake(part, kShop, brakeOf(ClampKind::kOnBeam)), nullptr,
                                                   kShop, brakeOf(ClampKind::kOnBeam)),
                                     "bend.near-bend");
    std::swap(part.bends[0].parent, part.bends[0].child);
    part.bends[0].toward_child = -part.bends[0].toward_child;
    part.bends[0].along = -part.bends[0].along;
    for (StripSpan& span : part.bends[0].spans) span = {-span.to_mm, -span.from_mm};
    const std::vector<Finding> based = brakeFindings(partOnBrake(part, kShop, brakeOf(ClampKind::kOnBeam)), nullptr,
                                                     kShop, brakeOf(ClampKind::kOnBeam));
    REQUIRE(findingOf(based, "bend.near-bend"));
    CHECK(findingOf(based, "bend.near-bend")->figures[0].value == Approx(chain.figures[0].value));
    CHECK(std::count_if(based.begin(), based.end(), [](const Finding& f) { return f.id == "bend.near-bend"; }) == 1);
    part.bends[0].up = part.bends[1].up;  // a U
    CHECK_FALSE(findingOf(brakeFindings(partOnBrake(part, kShop, brakeOf(ClampKind::kOnBeam)), nullptr, kShop,
                                        brakeOf(ClampKind::kOnBeam)),
                          "bend.near-bend"));
}

TEST_CASE("springback that no fold reaches is said without an angle over 180 degrees") {
    Section section = angleSection(60, 40, 100);
    section.thickness_mm = 1;
    section.inside_radius_mm = 25;
    section.angles_deg = {170};
    const Material stainless = shipped("1.4301");
    const std::vector<Finding> findings = partFindings(sectionPart(section), &stainless);
    REQUIRE(findingOf(findings, "angle.springback"));
    CHECK(findingOf(findings, "angle.springback")->words.find("more than any fold reaches") != std::string::npos);
}

TEST_CASE("grain is spoken of only where the table knows it, and turning the blank only where it helps") {
    Section section = angleSection(60, 40, 100);
    section.inside_radius_mm = 0.3;
    Part part = sectionPart(section);
    part.grain_deg = 0.0;  // along the bend
    const Material stainless = shipped("1.4301");
    const Finding soft = *findingOf(partFindings(part, &stainless), "radius.small");
    CHECK(soft.words.find("rolling") == std::string::npos);
    CHECK_FALSE(hasText(soft.remedies, "turn the blank"));
    const Material steel = shipped("dc01");
    CHECK_FALSE(hasText(findingOf(partFindings(part, &steel), "radius.small")->remedies, "turn the blank"));  // too
                                                                                                              // sharp
                                                                                                              // across
                                                                                                              // as well
    part.bends[0].inside_radius_mm = 1.6;
    CHECK(hasText(findingOf(partFindings(part, &steel), "radius.small")->remedies, "turn the blank"));
}

TEST_CASE("a window is not sent over another cut-out or too near to the far edge") {
    Part part = angle();
    const Material steel = shipped("mild-steel");
    const double start = 60 + strip_mm(part);
    cut(part, 1, "window", rectangle(5, start + 6, 95, start + 16));
    cut(part, 1, "slit", rectangle(5, start + 18, 95, start + 19));
    cut(part, 0, "foot", rectangle(5, 60 - 16, 95, 60 - 6));
    for (const Finding& finding : webFindings(part, &steel))
        CHECK_FALSE((finding.feature == "window" && hasText(finding.remedies, "move window")));
}

TEST_CASE("a window in one leg: hold that leg; in both legs there is no good side") {
    Part part = angle();
    const Material steel = shipped("mild-steel");
    const double start = 60 + strip_mm(part);
    cut(part, 1, "window", rectangle(5, start + 8, 95, start + 25));
    const std::vector<Finding> one = webFindings(part, &steel);
    REQUIRE(findingOf(one, "web.hold"));
    CHECK(findingOf(one, "web.hold")->section);
    CHECK_FALSE(findingOf(one, "web.folds"));
    cut(part, 0, "other", rectangle(5, 60 - 25, 95, 60 - 8));
    const std::vector<Finding> both = webFindings(part, &steel);
    REQUIRE(findingOf(both, "web.folds"));
    const Finding& folds = *findingOf(both, "web.folds");
    CHECK(folds.severity == Severity::kFault);
    REQUIRE(folds.section);
    CHECK((*folds.section)[0].y() == Approx((*folds.section)[1].y()).margin(1));
    CHECK(hasText(folds.remedies, "after folding"));
    CHECK(hasText(folds.remedies, "tab"));
}

TEST_CASE("a plan that swings the weak side is told so, one that holds it is not") {
    Part part = angle();
    const Material steel = shipped("mild-steel");
    const double start = 60 + strip_mm(part);
    cut(part, 1, "window", rectangle(5, start + 8, 95, start + 25));
    const Brake brake = brakeOf(ClampKind::kOnBeam);
    FoldStep step;
    step.stroke.bends = bit(idAt<BendId>(0));
    step.leaf_face = "full";
    step.held = {idAt<PanelId>(0)};
    const std::vector<Finding> swung = foldFindings(partOnBrake(part, kShop, brake), &steel, kShop, brake, step);
    REQUIRE(findingOf(swung, "web.folds"));
    CHECK(consequenceOf(*findingOf(swung, "web.folds")) == Consequence::kSpoils);
    // Another hold is no cure until a plan has it: orders are ranked by what they spoil.
    CHECK_FALSE(hasText(findingOf(swung, "web.folds")->remedies, "hold p1"));
    step.held = {idAt<PanelId>(1)};
    CHECK(foldFindings(partOnBrake(part, kShop, brake), &steel, kShop, brake, step).empty());
}
