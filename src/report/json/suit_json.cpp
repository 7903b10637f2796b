// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include <nlohmann/json.hpp>

#include <tinwright/report/text/suit_text.h>

#include "json/suitability_json.h"

namespace tinwright {

namespace {

using report::Json;
using report::suitability;

double rounded(double value) { return std::round(value * 1e4) / 1e4; }

const char* nameOf(Gain gain) {
    switch (gain) {
        case Gain::kGoes: return "goes";
        case Gain::kCleanly: return "spoils-nothing";
        case Gain::kComfortable: return "comfortable";
        case Gain::kFewerBars: return "fewer-bars";
        case Gain::kBetterCover: break;
    }
    return "better-cover";
}

Json changeOf(const SuitReport& report, const Suggestion& suggestion) {
    return {{"dimension", report.dimensions[suggestion.dimension].name},
            {"from_mm", rounded(suggestion.from_mm)},
            {"to_mm", rounded(suggestion.to_mm)}};
}

Json suggestionJson(const SuitReport& report, const Suggestion& suggestion, const std::vector<DimensionChange>& changes,
                    int number) {
    Json json{{"number", number}};
    json.update(changeOf(report, suggestion));
    json["gains"] = Json::array();
    for (const Gain gain : suggestion.gains) json["gains"].push_back(nameOf(gain));
    json["changes"] = Json::array();
    for (const DimensionChange& one : changes) {
        json["changes"].push_back({{"dimension", one.name},
                                   {"from_mm", rounded(one.from_mm)},
                                   {"to_mm", rounded(one.to_mm)},
                                   {"follows", one.follows}});
    }
    json["result"] = suitability(suggestion.result);
    return json;
}

}  // namespace

Json report::suitability(const Suitability& what) {
    Json json{{"verdict", toText(what.verdict)},
              {"orders_feasible", textOrNull(what.orders_feasible)},
              {"orders_total", textOrNull(what.orders_total)}};
    if (!what.works()) return json;
    json["tight"] = what.tight;
    json["bars_standing"] = what.bars;
    json["least_covered_share"] = ::tinwright::rounded(what.least_cover);
    json["worst_clearance_mm"] = ::tinwright::rounded(what.worst_clearance_mm);
    json["cost_s"] = what.cost_ms ? Json(static_cast<double>(*what.cost_ms) / 1000.0) : Json(nullptr);
    return json;
}

std::string suitJson(const SuitReport& report) {
    Json document{{"format", "tinwright-suit/1"},
                  {"part", report.part.name},
                  {"locked", report.locked},
                  {"brakes", Json::array()},
                  {"warnings", report.warnings}};
    int number = 0;
    for (const BrakeSuit& brake : report.brakes) {
        Json json{{"name", brake.brake->name}};
        if (brake.brake.vee() != nullptr) json["vee_mm"] = rounded(brake.brake.vee()->opening_mm);
        json.update({{"as_drawn", suitability(brake.result.as_drawn)}, {"suggestions", Json::array()}});
        for (std::size_t i = 0; i < brake.result.suggestions.size(); ++i) {
            json["suggestions"].push_back(
                suggestionJson(report, brake.result.suggestions[i], brake.changes[i], ++number));
        }
        json["nearest_beyond_limits"] = brake.result.beyond ? changeOf(report, *brake.result.beyond) : Json();
        json["bar_wanted"] = nullptr;
        if (const std::optional<WantedBar>& bar = brake.result.bar) {
            json["bar_wanted"] = {{"width_mm", bar->width_mm},
                                  {"clamp_depth_mm", bar->clamp_depth_mm},
                                  {"section_of", bar->like},
                                  {"between_mm", rounded(bar->between_mm)},
                                  {"result", suitability(bar->result)}};
        }
        document["brakes"].push_back(std::move(json));
    }
    return document.dump(2) + "\n";
}

}  // namespace tinwright
