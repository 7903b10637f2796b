// SPDX-License-Identifier: GPL-3.0-or-later
// What a fold on a press brake says of its back gauge: one line for the bench, and the plan's JSON.
#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include <tinwright/report/json/plan_json.h>

#include "../schema/schema_check.h"
#include "kinds/gauge_text.h"
#include "sample.h"

using namespace tinwright;

namespace {

FoldStep against(GaugeStop::Touch touch, const std::string& edge, int bends_between, double fingers_z_mm) {
    GaugeStop stop;
    stop.touch = touch;
    stop.panel = PanelId{1};
    stop.edge = edge;
    stop.bends_between = bends_between;
    stop.distance_mm = 38.4167;
    stop.fingers_z_mm = fingers_z_mm;
    stop.fingers = {{0, 60}, {120, 180}};
    stop.tolerance_mm = 0.231;
    FoldStep step;
    step.gauge_stop = stop;
    return step;
}

BrakeInSetup gauged() {
    Brake brake = sample::shop().brakes[0];
    PressBrake press;
    press.gauge.emplace();
    press.gauge->nearest_mm = 5;
    press.gauge->furthest_mm = 500;
    brake.kind = press;
    return inVee(brake, Vee{}, 1);
}

}  // namespace

TEST_CASE("a stop says how far behind the punch, what lies against it, and how true, rounded up") {
    const Part part = sample::channel();
    const std::string panel = part.panels[1].name;
    using Touch = GaugeStop::Touch;
    CHECK(report::gaugeText(part, gauged(), against(Touch::kEdge, "front.edge", 0, -7)) ==
          "stop 38.4 mm behind the punch, edge front.edge, flat, ±0.3 mm");
    CHECK(report::gaugeText(part, gauged(), against(Touch::kEdge, "", 2, 12)) ==
          "stop 38.4 mm behind the punch, an edge of " + panel +
              ", 2 bends between, fingers 12 mm over the die's top, ±0.3 mm");
    CHECK(report::gaugeText(part, gauged(), against(Touch::kFace, "", 1, -8.5)) ==
          "stop 38.4 mm behind the punch, outside of " + panel +
              ", 1 bend between, fingers 8.5 mm under the die's top, ±0.3 mm");
    CHECK(report::gaugeText(part, gauged(), against(Touch::kBend, "", 1, 0)) ==
          "stop 38.4 mm behind the punch, outside of the bend of " + panel +
              ", 1 bend between, fingers 0 mm over the die's top, ±0.3 mm");
}

TEST_CASE("a hem that lies against the stop is told by its folded edge") {
    Part part = sample::channel();
    for (Bend& bend : part.bends) bend.hem = Hem{};
    CHECK(report::gaugeText(part, gauged(), against(GaugeStop::Touch::kBend, "", 1, 0)) ==
          "stop 38.4 mm behind the punch, folded edge of " + part.panels[1].name +
              ", 1 bend between, fingers 0 mm over the die's top, ±0.3 mm");
}

TEST_CASE("without a stop the reason is told, and where to scribe the sight line") {
    FoldStep step;
    step.gauge_trouble = GaugeTrouble::kNoEdge;
    const std::string trouble = "no edge parallel to the bend within 5 to 500 mm: set by a sight line";
    CHECK(report::gaugeText(sample::channel(), gauged(), step) == trouble);
    step.sight_mm = 28.24;
    step.sight_from_edge = "front.edge";
    CHECK(report::gaugeText(sample::channel(), gauged(), step) == trouble + ", 28.2 mm from edge front.edge");
}

TEST_CASE("the plan of a press brake has its stops, and holds to the published schema") {
    const Part part = sample::channel();
    Shop shop = sample::shop();
    PlanReport report = sample::feasible(part, shop);
    PressBrake press;
    for (const Bar& bar : shop.brakes[0].leaf().bars) press.punches.push_back({bar, 0.8, {}, 0});
    shop.brakes[0].kind = press;
    report.brakes[0].result.brake = inVee(shop.brakes[0], Vee{8, Angle::degrees(85), 1}, 1.28);
    std::vector<FoldStep>& folds = report.brakes[0].result.plans[0].folds;
    for (FoldStep& fold : folds) fold.clearance_between[1] = BodyRef::Kind::kRam;
    folds[0].gauge_stop = against(GaugeStop::Touch::kFace, "", 1, -8.5).gauge_stop;
    folds[1].gauge_trouble = GaugeTrouble::kNoGauge;
    const nlohmann::json document = nlohmann::json::parse(planJson(report));
    const std::string complaints = test::schemaComplaints(document, "plan");
    CAPTURE(complaints);
    CHECK(complaints.empty());
    const nlohmann::json& written = document["brakes"][0]["plans"][0]["folds"];
    CHECK(written[0]["gauge"]["trouble"].is_null());
    CHECK(written[0]["gauge"]["stop"] ==
          nlohmann::json::parse(R"({"distance_mm": 38.417, "touch": "face", "panel": ")" + part.panels[1].name +
                                R"(", "edge": null, "flat": false, "bends_between": 1, "fingers_z_mm": -8.5,
        "fingers": [{"from_mm": 0.0, "to_mm": 60.0}, {"from_mm": 120.0, "to_mm": 180.0}], "tolerance_mm": 0.231})"));
    CHECK(written[1]["gauge"]["stop"].is_null());
    CHECK(written[1]["gauge"]["trouble"] == "the brake has no back gauge: set by a sight line");
    nlohmann::json bad = document;
    bad["brakes"][0]["plans"][0]["folds"][0]["gauge"]["stop"]["touch"] = "guess";
    CHECK_FALSE(test::schemaComplaints(bad, "plan").empty());
}
