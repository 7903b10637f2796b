// SPDX-License-Identifier: GPL-3.0-or-later
#include "json/finding_json.h"

namespace tinwright::report {

namespace {

Json thousandths(double value) { return rounded(value, 1000); }

Json sectionOf(const Finding& finding) {
    if (!finding.section) return nullptr;
    Json points = Json::array();
    for (const Vec2& point : *finding.section) points.push_back({thousandths(point.x()), thousandths(point.y())});
    return points;
}

Json findingJson(const Part& part, const Finding& finding) {
    Json bends = Json::array();
    for (const BendId bend : finding.bends) bends.push_back(part.bend(bend).name);
    Json figures = Json::array();
    for (const Figure& figure : finding.figures)
        figures.push_back({{"name", figure.name},
                           {"value", thousandths(figure.value)},
                           {"limit", figure.limit ? thousandths(*figure.limit) : Json(nullptr)}});
    return {{"id", finding.id},
            {"gravity", toText(finding.severity)},
            {"consequence", toText(consequenceOf(finding))},
            {"feature", finding.feature},
            {"brake", textOrNull(finding.brake)},
            {"bends", bends},
            {"words", finding.words},
            {"remedies", finding.remedies},
            {"figures", figures},
            {"section", sectionOf(finding)}};
}

}  // namespace

Json findingsJson(const Part& part, const std::vector<Finding>& findings) {
    Json list = Json::array();
    for (const Finding& finding : findings) list.push_back(findingJson(part, finding));
    return list;
}

}  // namespace tinwright::report
