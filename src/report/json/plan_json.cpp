// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/part/model/bend_frame.h>
#include <tinwright/report/json/plan_json.h>

#include <cmath>

#include <nlohmann/json.hpp>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/report/data/bar_datum.h>
#include <tinwright/report/sentences/allowance_text.h>

#include "document/document.h"
#include "json/finding_json.h"
#include "json/kind_fields.h"
#include "json/made_json.h"
#include "json/remedy_json.h"
#include "remedies/needs_text.h"
#include "sentences/search_words.h"
#include "words/way_words.h"
#include "words/words.h"

namespace tinwright {
namespace {

using report::bendNames;
using report::findingsJson;
using report::Json;
using report::lengthJson;
using report::remediesJson;
using report::rounded;
using report::textOrNull;

Json degrees(Angle angle) { return rounded(angle.deg(), 1000.0); }
Json share(double value) { return rounded(value, 10'000.0); }

Json panelNames(const Part& part, const std::vector<PanelId>& panels) {
    Json names = Json::array();
    for (const PanelId panel : panels) names.push_back(part.panel(panel).name);
    return names;
}

const char* kindName(ExitMove::Kind kind) {
    switch (kind) {
        case ExitMove::Kind::kPieceUp: return "piece-up";
        case ExitMove::Kind::kPieceAlong: return "piece-along";
        case ExitMove::Kind::kPieceBack: return "piece-back";
        case ExitMove::Kind::kPieceRound: return "piece-round";
        case ExitMove::Kind::kPartUp: return "part-up";
        case ExitMove::Kind::kPartForward: return "part-forward";
        case ExitMove::Kind::kPartAlong: return "part-along";
        case ExitMove::Kind::kPartTilted: break;
    }
    return "part-tilted";
}

// Heights of the ram are told where it goes up or down on the way.
Json moves(const std::vector<ExitMove>& way, double lift_mm) {
    Json list = Json::array();
    for (const ExitMove& move : way) {
        Json path = Json::array();
        Json raised = Json::array();
        bool ram_travels = false;
        for (const ExitMove::Point& point : move.path) {
            raised.push_back(lengthJson(lift_mm + point.ram_mm));
            ram_travels = ram_travels || point.ram_mm != 0;
            path.push_back({lengthJson(point.x_mm), lengthJson(point.y_mm), lengthJson(point.z_mm),
                            rounded(point.tilt_deg, 1000.0)});
        }
        list.push_back({{"move", kindName(move.kind)},
                        {"bar", move.piece < 0 ? Json(nullptr) : Json(move.piece)},
                        {"words", report::wayOutWords(move)},
                        {"path", path}});
        if (ram_travels) list.back()["ram_mm"] = std::move(raised);
    }
    return list;
}

Json bars(const BrakeInSetup& brake, const FoldStep& step) {
    const report::KindFields& fields = report::fieldsFor(*brake);
    Json list = Json::array();
    for (const PlacedTool& bar : step.tools) {
        const Tool& piece = brake->tool(bar.tool);
        list.push_back({{"id", piece.id}, {"from_mm", lengthJson(bar.from_mm)}, {"to_mm", lengthJson(bar.to_mm)}});
        if (const Json row = fields.row(brake->rowOf(bar.tool)); !row.is_null()) list.back()["row"] = row;
    }
    return list;
}

/// Where the rule lies: the fold's x of a named edge of the part.
Json barsEdge(const std::optional<BarDatum>& datum) {
    if (!datum) return nullptr;
    return {{"edge", datum->edge}, {"x_mm", lengthJson(datum->x_mm)}};
}

Json between(const Part& part, const BrakeInSetup& brake, const std::array<BodyRef, 2>& pair) {
    return Json::array({report::bodyName(part, brake, pair[0]), report::bodyName(part, brake, pair[1])});
}

Json holding(const Part& part, const BrakeInSetup& brake, const Holding& holding) {
    Json touch = Json::array();
    for (const auto& pair : holding.may_touch) touch.push_back(between(part, brake, pair));
    const bool told = !holding.holds && holding.between[0].known();
    return {{"holds", holding.holds},
            {"open", textOrNull(toText(holding.open))},
            {"lacks_mm", holding.lacks_mm > 0 ? lengthJson(holding.lacks_mm) : Json(nullptr)},
            {"between", told ? between(part, brake, holding.between) : Json::array()},
            {"may_touch", touch}};
}

Json tolerances(const ToleranceBox& box) {
    return {{"thickness_mm", lengthJson(box.thickness_mm)},
            {"cutting_mm", {lengthJson(box.leastCutting_mm()), lengthJson(box.mostCutting_mm())}},
            {"bend_line_mm", lengthJson(box.bend_line_mm)},
            {"bend_angle_deg", degrees(box.bend_angle)}};
}

Json closing(const HemClosing& closing) {
    return {{"part_x_mm", lengthJson(closing.part_x_mm)},  {"turned", closing.turned},
            {"front_mm", lengthJson(closing.front_mm)},    {"inserted_mm", lengthJson(closing.inserted_mm)},
            {"stands_mm", lengthJson(closing.stands_mm)},  {"height_mm", lengthJson(closing.height_mm)},
            {"out", closing.lifted_out ? "up" : "forward"}};
}

Json careJson(const Care& care) {
    Json list = Json::array();
    if (care.bars_packed) list.push_back("bars-packed");
    if (care.bars_clamped) list.push_back("bars-clamped");
    if (care.in_tongs) list.push_back("tongs");
    return list;
}

Json packingJson(const FoldStep& step) {
    if (!step.packing) return nullptr;
    const auto width = [](const std::optional<double>& width_mm) { return width_mm ? lengthJson(*width_mm) : nullptr; };
    return {{"height_mm", lengthJson(step.packing->height_mm)},
            {"on_leaf", step.packing->on_leaf},
            {"setback_mm", lengthJson(step.packing->setback_mm)},
            {"on_bed_mm", width(step.packing->on_bed_mm)},
            {"on_leaf_mm", width(step.packing->on_leaf_mm)}};
}

void addIncluded(const report::KindFields& fields, Json& json, const char* name, double turned_deg) {
    if (const Json included = fields.included_deg(turned_deg); !included.is_null()) json[name] = included;
}

Json fold(const report::FoldEntry& entry) {
    const Part& part = entry.on.part;
    const BrakeInSetup& brake = entry.on.brake;
    const FoldStep& step = entry.step;
    const report::KindFields& fields = report::fieldsFor(*brake);
    Json json = {{"bends", bendNames(part, step.stroke.bends)},
                 {"held", panelNames(part, step.held)},
                 {"face_up", step.drawn_face_up ? "drawn" : "back"},
                 {"turn_deg", rounded(step.turn_deg, 1000.0)},
                 {"flip", step.flip},
                 {"part_x_mm", lengthJson(step.part_x_mm)},
                 {"leaf_face", textOrNull(step.leaf_face)},
                 {"packing", packingJson(step)},
                 {"care", careJson(step.care)},
                 {"bars", bars(brake, step)},
                 {"bars_edge", barsEdge(entry.datum)},
                 {"bars_in", step.tools_in},
                 {"bars_out", step.tools_out},
                 {"lift_in_mm", lengthJson(step.lift_in_mm)},
                 {"lift_out_mm", lengthJson(step.lift_out_mm)},
                 {"way_in", moves(step.way_in, step.lift_in_mm)},
                 {"way_out", moves(step.way_out, step.lift_out_mm)},
                 {"plain_ways", step.plain_ways},
                 {"time_s", rounded(static_cast<double>(entry.time_ms) / 1000.0, 1000.0)},
                 {"covered_share", share(step.covered_share)},
                 {"angle_deg", degrees(step.angle)},
                 {"set_angle_deg", degrees(step.set_angle)},
                 {"leaf_angle_deg", step.leaf_angle.deg() > 0 ? degrees(step.leaf_angle) : Json(nullptr)},
                 {"depth_mm", fields.depth_mm(step)},
                 {"sight_mm", step.sight_from_edge.empty() ? Json(nullptr) : lengthJson(step.sight_mm)},
                 {"sight_from_edge", textOrNull(step.sight_from_edge)},
                 {"clearance_mm", lengthJson(step.clearance_mm)},
                 {"clearance_between",
                  step.clearance_between[0].known() ? between(part, brake, step.clearance_between) : Json::array()},
                 {"clearance_at_deg", rounded(step.clearance_at_deg, 1000.0)},
                 {"tolerances", holding(part, brake, step.over_tolerances)},
                 {"overhang_mm", lengthJson(step.overhang_mm)}};
    addIncluded(fields, json, "included_deg", step.angle.deg());
    addIncluded(fields, json, "set_included_deg", step.set_angle.deg());
    addIncluded(fields, json, "clearance_at_included_deg", step.clearance_at_deg);
    if (const Json gauge = fields.gauge(part, brake, step); !gauge.is_null()) json["gauge"] = gauge;
    if (step.closing) json["closing"] = closing(*step.closing);
    return json;
}

Json foldsOf(const report::PlanEntry& plan) {
    Json folds = Json::array();
    for (const report::FoldEntry& entry : plan.folds) folds.push_back(fold(entry));
    return folds;
}

Json verified(const report::ReplayEntry& replay) { return replay.checked ? Json(!replay.failed()) : Json(nullptr); }

Json findingsOf(const report::ReplayEntry& replay) { return replay.checked ? Json(replay.findings) : Json::array(); }

Json plan(const Part& part, const report::PlanEntry& entry) {
    const Plan& plan = entry.plan;
    return {{"rank", plan.rank},
            {"cost_s", rounded(static_cast<double>(plan.cost_ms) / 1000.0, 1000.0)},
            {"worst_clearance_mm", lengthJson(plan.worst_clearance_mm)},
            {"spoils", findingsJson(part, entry.spoiling)},
            {"tight", plan.tight},
            {"turns", entry.turns},
            {"flips", entry.flips},
            {"pieces_handled", entry.pieces},
            {"any_order", plan.any_order},
            {"verified", verified(entry.replay)},
            {"findings", findingsOf(entry.replay)},
            {"folds", foldsOf(entry)}};
}

Json nameOrNull(const FoldContext& on, BodyRef body) { return textOrNull(report::bodyName(on.part, on.brake, body)); }

Json reasons(const FoldContext& on, const std::vector<const Reason*>& reasons) {
    Json list = Json::array();
    for (const Reason* told : reasons) {
        const Reason& reason = *told;
        Json held = nullptr;
        if (reason.stroke.bends != 0 && reason.code != ReasonCode::kNotOneStroke) {
            const Bend& bend = on.part.bend(reason.stroke.first());
            held = on.part.panel(heldPanel(bend, reason.stroke.hold)).name;
        }
        list.push_back(
            {{"formed", bendNames(on.part, reason.formed)},
             {"flat", reason.flat ? Json(bendNames(on.part, *reason.flat)) : Json(nullptr)},
             {"bends", bendNames(on.part, reason.stroke.bends)},
             {"held", held},
             {"code", toText(reason.code)},
             {"panel", nameOrNull(on, reason.panel)},
             {"body", nameOrNull(on, reason.body)},
             {"at_deg", rounded(reason.at_deg, 1000.0)},
             {"depth_mm", lengthJson(reason.depth_mm)},
             {"room_mm", reason.room_mm ? Json{lengthJson((*reason.room_mm)[0]), lengthJson((*reason.room_mm)[1])}
                                        : Json(nullptr)},
             {"words", reasonWords(on, reason)}});
        addIncluded(report::fieldsFor(*on.brake), list.back(), "at_included_deg", reason.at_deg);
    }
    return list;
}

std::vector<const Reason*> pointers(const std::vector<Reason>& reasons) {
    std::vector<const Reason*> all;
    for (const Reason& reason : reasons) all.push_back(&reason);
    return all;
}

/// Places in `reasons[]`, which has the reasons of all causes one after the other.
Json causes(const BrakeResult& result) {
    Json list = Json::array();
    std::size_t at = 0;
    for (const Cause& cause : result.causes) {
        Json places = Json::array();
        for (std::size_t i = 0; i < cause.reasons.size(); ++i) places.push_back(at++);
        list.push_back(places);
    }
    return list;
}

Json forced(const FoldContext& on, const BrakeResult& result) {
    Json list = Json::array();
    for (const ForcedOrder& one : result.forced) {
        list.push_back({{"first", on.part.bend(one.first).name},
                        {"then", on.part.bend(one.then).name},
                        {"reasons", reasons(on, pointers(one.reasons))}});
    }
    return list;
}

Json search(const BrakeResult& result, OrderSource source) {
    const bool is_ranked = !result.plans.empty() && source != OrderSource::kOwn;
    return {{"proven_best", result.work.proven_best},
            {"least_s", !is_ranked ? Json(nullptr) : Json(static_cast<double>(result.work.least_ms) / 1000.0)},
            {"states", result.work.states},
            {"partial_orders", result.work.partial_orders}};
}

Json brakeJson(const PlanReport& report, const report::BrakeEntry& entry) {
    const BrakeReport& brake = entry.report;
    const BrakeResult& result = brake.result;
    Json plans = Json::array();
    for (const report::PlanEntry& one : entry.plans) plans.push_back(plan(report.part, one));
    Json json = {{"name", result.brake->name},
                 {"verdict", toText(result.verdict)},
                 {"orders_feasible", textOrNull(result.orders_feasible)},
                 {"orders_total", textOrNull(result.orders_total)},
                 {"plans", plans},
                 {"causes", causes(result)},
                 {"reasons", reasons(entry.on, entry.why_not.told)},
                 {"forced", forced(entry.on, result)},
                 {"forced_all_known", result.forced_all_known},
                 {"search", search(result, report.source)},
                 {"only_holding", result.only_holding},
                 {"model", textOrNull(result.model)},
                 {"notes", result.notes},
                 {"remedies", remediesJson(report, brake)},
                 {"vee_mm", result.brake.vee() != nullptr ? lengthJson(result.brake.vee()->opening_mm) : Json(nullptr)},
                 {"setback_mm", result.brake.vee() == nullptr ? lengthJson(result.brake.setback_mm()) : Json(nullptr)},
                 {"machine_needs", report::needsJson(brake)}};
    // Of orders that a person has a hand in alone.
    if (report.source == OrderSource::kPicked && brake.shownPlan() != nullptr) json["shown"] = brake.shownPlan()->rank;
    if (report.pins.any())
        json["without_pins"] = result.without_pins ? Json(toText(*result.without_pins)) : Json(nullptr);
    return json;
}

Json splitJson(const report::PlanDocument& document) {
    if (!document.split) return nullptr;
    const report::PlanEntry& plan = document.split->plan;
    Json folds = Json::array();
    for (const report::FoldEntry& entry : plan.folds) {
        folds.push_back({{"brake", entry.on.brake->name}, {"fold", fold(entry)}});
    }
    return {{"cost_s", rounded(static_cast<double>(plan.plan.cost_ms) / 1000.0, 1000.0)},
            {"worst_clearance_mm", lengthJson(plan.plan.worst_clearance_mm)},
            {"spoils", findingsJson(document.report.part, plan.spoiling)},
            {"tight", plan.plan.tight},
            {"times_carried", document.split->split.times_carried},
            {"proven_best", document.split->split.proven_best},
            {"verified", verified(plan.replay)},
            {"findings", findingsOf(plan.replay)},
            {"folds", folds}};
}

Json pinsJson(const Part& part, const Pins& pins) {
    Json holds = Json::array();
    for (const HoldPin& pin : pins.holds)
        holds.push_back({{"bend", part.bend(pin.bend).name}, {"held", part.panel(pin.panel).name}});
    Json first = Json::array();
    for (const BendMask stroke : pins.first) first.push_back(bendNames(part, stroke));
    Json before = Json::array();
    for (const BeforePin& pin : pins.before)
        before.push_back({{"first", part.bend(pin.first).name}, {"then", part.bend(pin.then).name}});
    return {{"holds", holds},
            {"first", first},
            {"before", before},
            {"vee_mm", pins.tools.vee_mm ? lengthJson(*pins.tools.vee_mm) : Json(nullptr)},
            {"bars", pins.tools.bars},
            {"without_bars", pins.tools.without_bars},
            {"punches", pins.tools.punches}};
}

Json allowances(const Part& part) {
    Json list = Json::array();
    for (const Bend& bend : part.bends) {
        list.push_back(
            {{"bend", bend.name},
             {"rule", toText(bend.rule)},
             {"value", bend.rule == AllowanceRule::kHandbook ? Json(nullptr) : rounded(bend.rule_value, 10'000.0)},
             {"source", textOrNull(bend.rule_source)},
             {"strip_mm", lengthJson(bend.allowance_mm)}});
    }
    return list;
}

}  // namespace

std::string planJson(const PlanReport& report) {
    const report::PlanDocument told = report::planDocument(report);
    Json brakes = Json::array();
    for (const report::BrakeEntry& brake : told.brakes) brakes.push_back(brakeJson(report, brake));
    Json document = {{"format", kPlanFormat},
                     {"part", report.part.name},
                     {"shop", report.shop.name},
                     {"formed", bendNames(report.part, report.formed)},
                     {"verdict", toText(report.verdict)},
                     {"brakes", brakes},
                     {"tolerances", tolerances(report.shop.tolerancesFor(report.part))},
                     {"allowance", allowances(report.part)},
                     {"findings", findingsJson(report.part, told.findings)},
                     {"warnings", report.warnings},
                     {"over_two_brakes", splitJson(told)}};
    if (report.pins.any()) document["pins"] = pinsJson(report.part, report.pins);
    if (report.source == OrderSource::kOwn) document["own_order"] = true;
    if (report.made) document["as_made"] = report::madeJson(report.part, *report.made, report.formed);
    // Names come from checked JSON; a file name in a warning may still hold any bytes.
    return document.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace tinwright
