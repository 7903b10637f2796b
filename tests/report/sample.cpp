// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample.h"
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>

namespace tinwright::sample {
namespace {

Bend flangeBend(const char* name, std::uint32_t child, double y_mm, double toward) {
    Bend bend;
    bend.name = name;
    bend.parent = PanelId{0};
    bend.child = PanelId{child};
    bend.origin = Vec2(0, y_mm);
    bend.along = Vec2::UnitX();
    bend.toward_child = Vec2(0, toward);
    bend.angle = Angle::degrees(90);
    bend.spans = {{0, 100}};
    return bend;
}

FoldStep fold(std::uint32_t bend) {
    FoldStep step;
    step.stroke.bends = bit(BendId{bend});
    step.held = {PanelId{0}};
    step.part_x_mm = 200;
    step.leaf_face = "full";
    step.tools = {{ToolId{0}, 0, 60}, {ToolId{1}, 60, 100}};
    step.tools_in = {0, 1};
    step.tools_out = {0, 1};
    step.way_out = {{ExitMove::Kind::kPieceUp, 0, {{0, 0, 60, 0}}},
                    {ExitMove::Kind::kPieceUp, 1, {{0, 0, 60, 0}}},
                    {ExitMove::Kind::kPartUp, -1, {{0, 0, 100, 0}}}};
    step.covered_share = 1;
    step.angle = Angle::degrees(90);
    step.set_angle = Angle::degrees(93);
    step.sight_mm = 28.24;
    step.sight_from_edge = bend == 0 ? "front.edge" : "back.edge";
    step.clearance_mm = 1.23456;
    step.clearance_between = {PanelId{1}, BodyRef(BodyRef::Kind::kBar, ToolId{0})};
    step.clearance_at_deg = 66;
    return step;
}

Brake brake(const char* name, ClampKind clamp) {
    Brake brake;
    brake.name = name;
    brake.length_mm = 1000;
    brake.leaf().clamp = clamp;
    brake.leaf().leaf_faces = {{"full", 25, 20}};
    Bar b60;
    b60.id = "B60";
    b60.width_mm = 60;
    Bar b40 = b60;
    b40.id = "B40";
    b40.width_mm = 40;
    brake.leaf().bars = {b60, b40};
    return brake;
}

}  // namespace

Part channel() {
    Part part;
    part.name = "channel";
    part.material = "mild-steel";
    part.thickness_mm = 1.5;
    for (const char* name : {"base", "front", "back"}) {
        Panel panel;
        panel.name = name;
        part.panels.push_back(panel);
    }
    part.bends = {flangeBend("front-bend", 1, 0, -1), flangeBend("back-bend", 2, 40, 1)};
    part.edges = {{"base.left", PanelId{0}, Vec2(0, 0), Vec2(0, 40)},
                  {"base.right", PanelId{0}, Vec2(100, 0), Vec2(100, 40)},
                  {"front.edge", PanelId{1}, Vec2(0, -30), Vec2(100, -30)},
                  {"back.edge", PanelId{2}, Vec2(0, 70), Vec2(100, 70)}};
    return part;
}

Shop shop() {
    Shop shop;
    shop.name = "corner shop";
    shop.brakes = {brake("bench magnet", ClampKind::kLooseBars), brake("finger", ClampKind::kOnBeam)};
    return shop;
}

Plan channelPlan() {
    Plan plan;
    plan.rank = 1;
    plan.cost_ms = 130'000;
    plan.worst_clearance_mm = 1.23456;
    plan.folds = {fold(0), fold(1)};
    plan.folds[1].turn_deg = 180;
    return plan;
}

PlanReport feasible(const Part& part, const Shop& shop) {
    PlanReport report{part, shop, 0, Verdict::kFeasible, {}, {}, {}};
    BrakeReport brake;
    brake.result.brake = inSetup(shop.brakes[0], part.thickness_mm);
    brake.result.verdict = Verdict::kFeasible;
    brake.result.orders_feasible = "2";
    brake.result.orders_total = "2";
    brake.result.plans = {channelPlan()};
    report.brakes = {brake};
    return report;
}

PlanReport infeasible(const Part& part, const Shop& shop) {
    PlanReport report{part, shop, 0, Verdict::kInfeasible, {}, {}, {}};
    BrakeReport brake;
    brake.brake = 1;
    brake.result.brake = inSetup(shop.brakes[1], part.thickness_mm);
    brake.result.verdict = Verdict::kInfeasible;
    brake.result.orders_feasible = "0";
    brake.result.orders_total = "2";
    brake.result.model = "rigid flat panels, one stroke a bend";
    const Reason hit = frontHitsBar();
    Reason no_land;
    no_land.stroke = {bit(BendId{1}), Side::kChild};
    no_land.code = ReasonCode::kTooLittleClamped;
    no_land.panel = PanelId{2};
    brake.result.reasons = {hit, no_land};
    report.brakes = {brake};
    return report;
}

Reason frontHitsBar() {
    Reason hit;
    hit.stroke.bends = bit(BendId{1});
    hit.code = ReasonCode::kHit;
    hit.panel = PanelId{1};
    hit.body = BodyRef::Kind::kBar;
    hit.tool = ToolId{0};
    hit.angle = Angle::degrees(90);
    hit.set_angle = Angle::degrees(93);
    hit.at_deg = 66;
    hit.depth_mm = 2.5;
    return hit;
}

}  // namespace tinwright::sample
