// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "paper/html.h"
#include "sentences/trouble_words.h"
#include "sheet/sheet_parts.h"
#include "words/text_width.h"

namespace tinwright::report {
namespace {

std::string findingItem(const Finding& finding) {
    std::string gravity = gravityWords(finding);
    if (gravity.empty() && finding.severity != Severity::kNote) gravity = "Look at this: ";
    std::string text = gravity.empty() ? "" : wrap("b", gravity);
    if (!finding.feature.empty()) text += xmlText(finding.feature + ": ");
    text += xmlText(finding.words) + " <small>" + xmlText(finding.id) + "</small>";
    if (finding.severity != Severity::kNote) text += list(finding.remedies);
    return wrap("li", text);
}

/// Cutting has a section of its own.
bool isOfCutting(const Finding& finding) { return finding.id.starts_with("cut."); }

std::vector<Finding> metalFindings(const SheetWork& work) {
    std::vector<Finding> findings;
    for (const auto* list : {&work.report.findings, &work.brake_report.findings}) {
        for (const Finding& finding : *list) {
            if (!isOfCutting(finding)) findings.push_back(finding);
        }
    }
    std::stable_sort(findings.begin(), findings.end(),
                     [](const Finding& a, const Finding& b) { return a.severity > b.severity; });
    return findings;
}

}  // namespace

std::string findingList(const std::vector<Finding>& findings) {
    std::string items;
    for (const Finding& finding : findings) items += findingItem(finding);
    return items.empty() ? items : wrap("ul", items);
}

std::vector<Finding> weakPlaces(const SheetWork& work) {
    std::vector<Finding> places = metalFindings(work);
    std::erase_if(places, [](const Finding& finding) { return !finding.section; });
    return places;
}

std::string metalSection(const SheetWork& work) {
    const std::vector<Finding> findings = metalFindings(work);
    if (findings.empty()) return {};
    std::string text = element("h3", "Before metal is cut: what the metal may do") + findingList(findings);
    text += wrap("p",
                 "<small>Rules of thumb and published figures: \"tinwright explain\" with the name in small letters "
                 "tells the rule and its source.</small>");
    return wrap("div", text, findings.size() <= 6 ? "keep warn" : "warn");
}

}  // namespace tinwright::report
