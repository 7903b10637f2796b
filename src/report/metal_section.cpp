// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <tinwright/forming/check.h>

#include "html.h"
#include "sheet_parts.h"
#include "text_width.h"

namespace tinwright::report {
namespace {

std::string findingItem(const Finding& finding) {
    const std::string gravity = finding.gravity == Gravity::kFault ? "FAULT: " : finding.gravity == Gravity::kWarning ? "Look at this: " : "";
    std::string text = (gravity.empty() ? "" : wrap("b", gravity)) + xmlText(finding.words) + " <small>" + xmlText(finding.id) + "</small>";
    if (!finding.remedies.empty()) text += list(finding.remedies);
    return wrap("li", text);
}

}  // namespace

std::string findingList(const std::vector<Finding>& findings) {
    std::string items;
    for (const Finding& finding : findings) items += findingItem(finding);
    return items.empty() ? items : wrap("ul", items);
}

std::string metalSection(const SheetWork& work) {
    if (work.findings.empty()) return {};
    std::string text = element("h3", "Before metal is cut: what the metal may do");
    text += findingList(work.findings);
    text += wrap("p", "<small>Rules of thumb and published figures; <code>tinwright explain</code> and the name in small letters tells the rule and its source.</small>");
    return wrap("div", text, work.findings.size() <= 6 ? "keep warn" : "warn");
}

}  // namespace tinwright::report
