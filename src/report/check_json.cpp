// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include <nlohmann/json.hpp>

#include <tinwright/report/check_report.h>

namespace tinwright {

namespace {

using Json = nlohmann::ordered_json;  // keeps fields in the order in which they are documented

constexpr double kSteps = 1000;

Json rounded(double value) {
    if (!std::isfinite(value)) return nullptr;
    return std::round(value * kSteps) / kSteps + 0.0;  // + 0.0 turns -0 into 0
}

Json textOrNull(const std::string& text) { return text.empty() ? Json(nullptr) : Json(text); }

Json sectionOf(const Finding& finding) {
    if (!finding.section) return nullptr;
    Json points = Json::array();
    for (const Vec2& point : *finding.section) points.push_back({rounded(point.x()), rounded(point.y())});
    return points;
}

Json findingJson(const Part& part, const Finding& finding) {
    Json bends = Json::array();
    for (const BendId bend : finding.bends) bends.push_back(part.bend(bend).name);
    Json figures = Json::array();
    for (const Figure& figure : finding.figures) figures.push_back({{"name", figure.name}, {"value", rounded(figure.value)}, {"limit", figure.limit ? rounded(*figure.limit) : Json(nullptr)}});
    return {{"id", finding.id},       {"gravity", toText(finding.gravity)}, {"feature", finding.feature}, {"brake", textOrNull(finding.brake)}, {"bends", bends},
            {"words", finding.words}, {"remedies", finding.remedies},       {"figures", figures},         {"section", sectionOf(finding)}};
}

}  // namespace

std::string checkJson(const CheckReport& report) {
    Json findings = Json::array();
    for (const Finding& finding : report.findings) findings.push_back(findingJson(report.part, finding));
    const Json document{{"format", "tinwright-check/1"}, {"part", report.part.name}, {"shop", textOrNull(report.shop)},
                        {"brakes", report.brakes},       {"findings", findings},     {"warnings", report.warnings}};
    return document.dump(2) + "\n";
}

}  // namespace tinwright
