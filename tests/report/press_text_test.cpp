// SPDX-License-Identifier: GPL-3.0-or-later
// What is said of folds on a press brake: punches, dies, what lies at the back and in front, the stroke; and nothing of
// bars, leaf and clamp.
#include <catch2/catch.hpp>

#include <sstream>

#include <tinwright/report/json/plan_json.h>
#include <tinwright/report/text/bars_text.h>
#include <tinwright/report/text/suit_text.h>
#include <tinwright/report/text/text.h>
#include <nlohmann/json.hpp>

#include "sample.h"
#include "sentences/order_text.h"
#include "sentences/reason_text.h"
#include "sentences/search_words.h"
#include "sheet_cases.h"
#include "words/safety_text.h"

using namespace tinwright;

namespace {

std::string flowing(const std::string& text) {
    std::string out;
    std::istringstream words(text);
    for (std::string word; words >> word;) out += (out.empty() ? "" : " ") + word;
    return out;
}

bool has(const std::string& text, const std::string& part) { return flowing(text).find(part) != std::string::npos; }

bool speaksOfLeafBrakes(const std::string& text) {
    for (const char* word : {" bar ", " bars", "Bars", "leaf", "clamp depth", "nose", "magnet", "holding "}) {
        if (flowing(text).find(word) != std::string::npos) return true;
    }
    return false;
}

FoldStep pressed(FoldStep step) {
    step.leaf_face.clear();
    step.tools = {{ToolId{2}, 0, 100}, {ToolId{6}, -12, 88}};
    step.tools_in = step.tools_out = {};
    step.way_out = {{ExitMove::Kind::kPartForward, -1, {{0, -400, 0, 0}}}};
    step.covered_share = 0.79;
    step.depth_mm = 4.609;
    step.gauge_trouble = GaugeTrouble::kOutOfReach;
    step.clearance_between[1] = BodyRef(BodyRef::Kind::kPunch, ToolId{2});
    step.over_tolerances.looked_at = false;
    return step;
}

struct PressSample {
    Part part = sample::channel();
    Shop shop = sample::pressShop();
    PlanReport report = feasible();

    PlanReport feasible() {
        PlanReport made = sample::feasible(part, sample::shop());
        PlanReport made_here{part, shop, 0, made.verdict, std::move(made.brakes), {}, {}};
        BrakeResult& result = made_here.brakes[0].result;
        result.brake = sample::inUse(shop.brakes[0]);
        for (FoldStep& step : result.plans[0].folds) step = pressed(step);
        return made_here;
    }

    /// The part held so is stopped by the ram.
    [[nodiscard]] static Reason rammed(Side hold) {
        Reason reason;
        reason.stroke.bends = bit(BendId{1});
        reason.stroke.hold = hold;
        reason.code = ReasonCode::kHit;
        reason.panel = PanelId{1};
        reason.body = BodyRef::Kind::kRam;
        reason.at_deg = 76;
        reason.depth_mm = 4.9;
        return reason;
    }

    BrakeInSetup in_use = sample::inUse(shop.brakes[0]);
    [[nodiscard]] FoldContext on() const { return {part, shop, in_use}; }
};

}  // namespace

TEST_CASE_METHOD(PressSample,
                 "a plan on a press brake tells the V, punches and dies apart, both sides and the stroke") {
    const std::string text = planText(report);
    CAPTURE(text);
    CHECK(has(text, "V 12 mm, 40°; inside radius 2.00 mm (air bending: 0.16 of the V); usual for 1.5 mm sheet: 9 mm"));
    CHECK(has(text, "Tools punches P100; dies V12-100"));
    CHECK(has(text, "Lay base at the back, front in front, drawn face up"));
    CHECK(has(text, "Punches P100 0 to 100 mm to the right of edge base.left"));
    CHECK(has(text, "79% of the bend is under punches"));
    CHECK(has(text, "Dies V12-100 -12 to 88 mm to the right (minus: to the left) of edge base.left"));
    CHECK(has(text,
              "Stroke set 87° included (93° turned) for 90°; the punch goes 4.6 mm into the V from where it touches "
              "the sheet"));
    CHECK(has(text, "at least 1.2 mm, front to punch P100"));
    CHECK(has(text, "Tolerances not worked out for press brakes"));
    CHECK_FALSE(speaksOfLeafBrakes(text));
}

// The controls of press brakes take the angle between the sides, those of leaf brakes the angle from flat (common
// practice): 180° less the one is the other, and at a right angle they are the same.
TEST_CASE_METHOD(PressSample,
                 "A press brake tells every angle between the sides and from flat, a leaf brake as turned") {
    FoldStep& step = report.brakes[0].result.plans[0].folds[0];
    step.angle = Angle::degrees(120);
    step.set_angle = Angle::degrees(123.5);
    CHECK(has(planText(report), "set 56.5° included (123.5° turned) for 60° included (120° turned); the punch goes"));
    const nlohmann::json fold = nlohmann::json::parse(planJson(report))["brakes"][0]["plans"][0]["folds"][0];
    CHECK(fold["set_angle_deg"] == 123.5);
    CHECK(fold["set_included_deg"] == 56.5);
    CHECK(fold["included_deg"] == 60);

    Reason past = rammed(Side::kParent);
    past.code = ReasonCode::kVeeAngle;
    past.set_angle = Angle::degrees(143);
    past.at_deg = 140;
    CHECK(has(reasonWords(on(), past),
              "a V of 40° cannot press to 37° included (143° turned): past 40° included (140° "
              "turned) the sheet lies on its flanks"));
    past.code = ReasonCode::kNoTools;
    past.body = BodyRef::Kind::kPunch;
    CHECK(has(reasonWords(on(), past), "slim enough to press it to 37° included (143° turned)"));

    const Shop leaf_shop = sample::shop();
    const BrakeInSetup folder = sample::inUse(leaf_shop.brakes[0]);
    Reason hit = rammed(Side::kParent);
    hit.body = BodyRef::Kind::kBeam;
    CHECK(has(reasonWords({part, leaf_shop, folder}, hit), "hits the beam at about 76° and"));
}

TEST_CASE_METHOD(PressSample, "what fails alike whichever side is at the back is told once") {
    const std::vector<Reason> alike{rammed(Side::kParent), rammed(Side::kChild)};
    const auto sentences = report::sentencesOf(on(), alike);
    REQUIRE(sentences.size() == 1);
    CHECK(sentences[0].words ==
          "back-bend, whichever side is at the back: front hits the ram at about 104° included (76° turned) and would "
          "go 4.9 mm into it");
    CHECK(sentences[0].reason == &alike[0]);
    BrakeResult result;
    result.causes = {{alike}};
    CHECK(report::causesWords(on(), result) == "This alone rules out every order.");
}

TEST_CASE_METHOD(PressSample, "what differs in anything but the side is told twice, and so is the same side") {
    std::vector<Reason> reasons{rammed(Side::kParent), rammed(Side::kChild)};
    reasons[1].depth_mm += 0.1;
    CHECK(report::sentencesOf(on(), reasons).size() == 2);
    reasons = {rammed(Side::kParent), rammed(Side::kParent)};
    CHECK(report::sentencesOf(on(), reasons).size() == 2);
    reasons = {rammed(Side::kParent), rammed(Side::kChild)};
    reasons[1].stroke.bends = bit(BendId{0});
    CHECK(report::sentencesOf(on(), reasons).size() == 2);
}

TEST_CASE_METHOD(PressSample, "reasons of leaf brakes are told one by one") {
    std::vector<Reason> reasons{sample::frontHitsBar(), sample::frontHitsBar()};
    reasons[1].stroke.hold = Side::kChild;
    const Shop leaf_shop = sample::shop();
    const BrakeInSetup folder = sample::inUse(leaf_shop.brakes[0]);
    CHECK(report::sentencesOf({part, leaf_shop, folder}, reasons).size() == 2);
}

TEST_CASE_METHOD(PressSample, "another order of the same bends says what else is at the back") {
    std::vector<Plan> plans{report.brakes[0].result.plans[0], report.brakes[0].result.plans[0]};
    plans[1].rank = 2;
    const BrakeInSetup in_use = sample::inUse(shop.brakes[0]);
    CHECK(has(report::nextBestLine(part, in_use, plans, 1),
              "same order and sides at the back, other punches, dies or places"));
    plans[1].folds[0].stroke.hold = Side::kChild;
    CHECK(has(report::nextBestLine(part, in_use, plans, 1), "same order, but fold 1 has front at the back"));
}

// Points of the published guidance on press brakes (practice.md, section 6), each by its word.
TEST_CASE("cautions are those of the kinds of machine asked about") {
    const std::string press = report::safetyText({MachineKind::kPressBrake});
    for (const char* word :
         {"guards", "written procedure", "training", "between punch and die", "back gauge", "whips up", "support it",
          "small part", "pedal", "Seat and clamp", "force per length", "manual", "local rules", "licensed practice"}) {
        CAPTURE(word);
        CHECK(has(press, word));
    }
    CHECK_FALSE(has(press, "leaf"));
    CHECK_FALSE(has(press, "Magnetic"));
    const std::string both = report::safetyText({MachineKind::kPressBrake, MachineKind::kLooseBarFolder});
    CHECK(has(both, "leaf as it swings"));
    CHECK(has(both, "Magnetic"));
    CHECK(has(both, "pedal"));
    CHECK_FALSE(has(report::safetyText({MachineKind::kBeamFolder}), "pedal"));
}

TEST_CASE_METHOD(PressSample, "punches under an inside width: no dies, and the walls have the radius of the V") {
    // 8 each of P30, P60 and P100; with 2 mm of radius and half a mm of clearance at each end 60 mm go comfortably
    // under 65 mm, and not under 64.9.
    const BarsAnswer answer = barsAnswer(sample::inUse(shop.brakes[0]), shop.limits, 65);
    REQUIRE_FALSE(answer.fits.empty());
    CHECK(answer.names.front() == "P60");
    CHECK(answer.fits.front().comfortable);
    const std::string text = barsText({answer}, shop.limits);
    CHECK(has(text, "Inside width 65.0 mm on press, V 12 of 40°, walls of inside radius 2.00 mm"));
    CHECK(has(text, "Punches 1 piece: P60"));
    CHECK_FALSE(has(text, "V12-"));
    CHECK_FALSE(barsAnswer(sample::inUse(shop.brakes[0]), shop.limits, 64.9).fits.front().comfortable);
}

TEST_CASE_METHOD(PressSample, "punches of other heights are not mixed in one string, those with horns are") {
    Brake& brake = shop.brakes[0];
    const auto offers = [&](double width_mm, const std::string& names) {
        const BarsAnswer answer = barsAnswer(sample::inUse(brake), shop.limits, width_mm);
        return std::find(answer.names.begin(), answer.names.end(), names) != answer.names.end();
    };
    CHECK(offers(165, "P60 + P100"));
    CHECK(offers(95, "P30 + P60"));
    std::vector<Punch>& punches = brake.press().punches;
    punches[2].count = 0;  // P100: of equal widths one choice is told
    CHECK(offers(165, "P60 + P100L"));
    punches[0].height_mm += 40;  // P30
    punches[0].profile = {Vec2(-6, 20), Vec2(0, 0), Vec2(6, 20), Vec2(6, 105), Vec2(-6, 105)};
    CHECK_FALSE(offers(95, "P30 + P60"));
    CHECK(offers(95, "3 x P30"));
}

TEST_CASE_METHOD(PressSample, "what suits a press brake is told of punches, in its V") {
    SuitReport suit{part, shop};
    BrakeSuit brake;
    brake.brake = sample::inUse(shop.brakes[0]);
    brake.result.as_drawn.verdict = Verdict::kInfeasible;
    brake.result.as_drawn.reasons = {rammed(Side::kParent), rammed(Side::kChild)};
    suit.brakes = {brake};
    const std::string text = suitText(suit);
    CAPTURE(text);
    CHECK(has(text, "V 12 mm, 40°"));
    CHECK(has(text, "back-bend, whichever side is at the back"));
    CHECK(has(text, "A punch no single punch more between two walls makes it go as drawn"));
    CHECK(suitJson(suit).find("\"vee_mm\": 12") != std::string::npos);
    CHECK_FALSE(speaksOfLeafBrakes(text));
}
