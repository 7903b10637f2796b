// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/report/data/screen_report.h>

#include "data/json_values.h"
#include "remedies/needs_text.h"
#include "remedies/remedy_text.h"
#include "sentences/screen_words.h"
#include "sentences/search_words.h"
#include "sentences/split_words.h"

namespace tinwright {

namespace {

using namespace report;

Json spoilsJson(const PlanReport& report, const BrakeReport& brake) {
    Json list = Json::array();
    if (brake.fold_findings.empty()) return list;
    for (const Finding& finding : spoiling(report, brake, 0))
        list.push_back(finding.feature + ": " + finding.words + " (" + finding.id + ")");
    return list;
}

Json screenedBrakeJson(const PlanReport& report, const BrakeReport& brake) {
    const BrakeResult& result = brake.result;
    Json blocks = Json::array();
    if (!goes(result.verdict)) {
        for (const Reason* reason : toldReasons(result))
            blocks.push_back(reasonWords(contextOf(report, brake), *reason));
    }
    const bool goes = !result.plans.empty();
    return {
        {"name", result.brake->name},
        {"vee_mm", result.brake.vee() != nullptr ? lengthJson(result.brake.vee()->opening_mm) : Json(nullptr)},
        {"verdict", toText(result.verdict)},
        {"tight", goes ? Json(result.plans.front().tight) : Json(nullptr)},
        {"cost_s", goes ? rounded(static_cast<double>(result.plans.front().cost_ms) / 1000.0, 1000.0) : Json(nullptr)},
        {"orders_feasible", textOrNull(result.orders_feasible)},
        {"orders_total", textOrNull(result.orders_total)},
        {"blocks", blocks},
        {"overloads", findingWords(brake, Severity::kOverload)},
        {"faults", findingWords(brake, Severity::kFault)},
        {"spoils", spoilsJson(report, brake)},
        {"remedies", brake.remedies ? Json(remedyLines(report, *brake.remedies)) : Json(nullptr)},
        {"machine_needs", needsJson(brake)}};
}

}  // namespace

std::string screenJson(const std::vector<ScreenedPart>& parts) {
    Json document{{"format", kScreenFormat},
                  {"shop", parts.empty() ? Json(nullptr) : Json(parts.front().report.shop.name)},
                  {"parts", Json::array()}};
    for (const ScreenedPart& part : parts) {
        Json brakes = Json::array();
        for (const BrakeReport& brake : part.report.brakes) brakes.push_back(screenedBrakeJson(part.report, brake));
        document["parts"].push_back({{"file", part.file},
                                     {"part", part.report.part.name},
                                     {"verdict", toText(part.report.verdict)},
                                     {"brakes", brakes},
                                     {"over_two_brakes", textOrNull(splitWords(part.report))},
                                     {"warnings", part.report.warnings}});
    }
    return document.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace tinwright
