// SPDX-License-Identifier: GPL-3.0-or-later
#include "json/remedy_json.h"

#include "json/suitability_json.h"
#include "remedies/remedy_text.h"

namespace tinwright::report {

namespace {

Json change(const std::string& name, double from_mm, double to_mm) {
    return {{"dimension", name}, {"from_mm", lengthJson(from_mm)}, {"to_mm", lengthJson(to_mm)}};
}

Json dimensions(const RemedyReport& remedies, const Remedy& remedy) {
    Json list = Json::array();
    for (const DimensionChangeTo& one : remedy.dimensions)
        list.push_back(change(remedies.dimensions[one.dimension].name, one.from_mm, one.to_mm));
    return list;
}

Json changes(const std::vector<DimensionChange>& all) {
    Json list = Json::array();
    for (const DimensionChange& one : all) list.push_back(change(one.name, one.from_mm, one.to_mm));
    return list;
}

Json corners(const Part& part, const Remedy& remedy) {
    Json list = Json::array();
    for (const OpenedCorner& one : remedy.corners) {
        list.push_back({{"panel", part.panel(part.bend(one.bend).child).name},
                        {"beside", part.panel(one.beside).name},
                        {"by_mm", lengthJson(one.by_mm)},
                        {"slant_deg", one.slant_deg},
                        {"weld_mm", lengthJson(one.weld_mm)},
                        {"gap_mm", lengthJson(one.gap_mm)}});
    }
    return list;
}

const char* nameOf(CutOutCure::Kind kind) {
    switch (kind) {
        case CutOutCure::Kind::kMoved: return "moved";
        case CutOutCure::Kind::kNarrowed: return "narrowed";
        case CutOutCure::Kind::kBridged: return "bridged";
        case CutOutCure::Kind::kCutAfter: break;
    }
    return "cut-after";
}

Json cutOuts(const Part& part, const Remedy& remedy) {
    Json list = Json::array();
    for (const CutOutCure& cure : remedy.cut_outs) {
        list.push_back({{"cut_out", part.cut_outs[cure.cut_out].name},
                        {"how", nameOf(cure.kind)},
                        {"bend", part.bend(cure.bend).name},
                        {"by_mm", lengthJson(cure.by_mm)},
                        {"tabs", cure.tabs}});
    }
    return list;
}

Json bars(const Remedy& remedy) {
    Json list = Json::array();
    for (const NewBar& one : remedy.bars) {
        list.push_back({{"section_of", one.like},
                        {"width_mm", lengthJson(one.width_mm)},
                        {"depth_mm", lengthJson(one.depth_mm)},
                        {"height_mm", lengthJson(one.height_mm)},
                        {"milled", one.milled}});
    }
    return list;
}

Json weld(const Part& part, const Remedy& remedy) {
    if (!remedy.weld) return nullptr;
    const Bend& bend = part.bend(remedy.weld->bend);
    return {{"bend", bend.name},
            {"piece", part.panel(bend.child).name},
            {"piece_bends", remedy.weld->piece_bends},
            {"weld_mm", lengthJson(remedy.weld->weld_mm)}};
}

}  // namespace

Json remediesJson(const PlanReport& report, const BrakeReport& brake) {
    if (!brake.remedies) return nullptr;
    const RemedyReport& remedies = *brake.remedies;
    const std::vector<std::string> lines = remedyLines(report, remedies);
    Json list = Json::array();
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const Remedy& remedy = remedies.found.list[i];
        list.push_back({{"kind", nameOf(remedy.kind)},
                        {"words", lines[i]},
                        {"brake", report.shop.brakes[remedy.brake].name},
                        {"dimensions", dimensions(remedies, remedy)},
                        {"changes", changes(remedies.changes[i])},
                        {"cut_outs", cutOuts(report.part, remedy)},
                        {"corners", corners(report.part, remedy)},
                        {"bars", bars(remedy)},
                        {"weld", weld(report.part, remedy)},
                        {"result", suitability(remedy.result)}});
    }
    return {{"list", list}, {"complete", !remedies.found.cut_short}};
}

}  // namespace tinwright::report
