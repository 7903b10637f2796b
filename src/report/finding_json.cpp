// SPDX-License-Identifier: GPL-3.0-or-later
#include "finding_json.h"

#include <cmath>

namespace tinwright::report {

namespace {

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

Json findingsJson(const Part& part, const std::vector<Finding>& findings) {
    Json list = Json::array();
    for (const Finding& finding : findings) list.push_back(findingJson(part, finding));
    return list;
}

}  // namespace tinwright::report
