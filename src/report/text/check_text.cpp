// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <fmt/format.h>

#include <tinwright/report/data/check_report.h>
#include <tinwright/report/text/text.h>

#include "words/safety_text.h"
#include "words/words.h"
#include "words/wrap.h"

namespace tinwright {

namespace {

using namespace report;

constexpr std::size_t kIdColumns = 20;

std::size_t countOf(const CheckReport& report, Severity severity) {
    return static_cast<std::size_t>(
        std::count_if(report.findings.begin(), report.findings.end(),
                      [severity](const Finding& finding) { return finding.severity == severity; }));
}

std::string verdictLine(const CheckReport& report) {
    const std::string name = printable(report.part.name);
    const std::size_t faults = countOf(report, Severity::kFault);
    const std::size_t overloads = countOf(report, Severity::kOverload);
    const std::string counts = fmt::format(
        "{}{}, {} and {}", overloads > 0 ? counted(overloads, "overload") + ", " : "", counted(faults, "fault"),
        counted(countOf(report, Severity::kWarning), "warning"), counted(countOf(report, Severity::kNote), "note"));
    const std::string verdict = faults > 0      ? "FAULTS: {} would be spoilt as drawn: {}."
                                : overloads > 0 ? "OVERLOAD: {} asks more than the machine is rated for: {}."
                                                : "NO FAULT in {}: {}.";
    return wrapped("", "  ", fmt::format(fmt::runtime(verdict), name, counts), kReportColumns);
}

std::string findingText(const CheckReport& report, const Finding& finding) {
    std::string title = finding.id + "  " + printable(finding.feature);
    if (!finding.brake.empty() && report.brakes.size() > 1) title += " on " + printable(finding.brake);
    std::string text = wrapped("  ", "    ", title, kReportColumns);
    text += wrapped("      ", "      ", printable(finding.words), kReportColumns);
    for (std::size_t i = 0; i < finding.remedies.size(); ++i)
        text += wrapped(i == 0 ? "      cure: " : "        or: ", "            ", printable(finding.remedies[i]),
                        kReportColumns);
    return text;
}

std::string group(const CheckReport& report, Severity severity, std::string_view title) {
    if (countOf(report, severity) == 0) return {};
    std::string text = "\n" + heading(title, '-');
    for (const Finding& finding : report.findings) {
        if (finding.severity == severity) text += findingText(report, finding);
    }
    return text;
}

std::string brakesLine(const CheckReport& report) {
    if (report.brakes.empty())
        return "none given: webs are checked for a leaf face of 25 mm, and load, leaf angle and flanges are not "
               "(--shop)";
    std::vector<std::string> names;
    for (const std::string& brake : report.brakes) names.push_back(printable(brake));
    return listed(names);
}

}  // namespace

std::string checkText(const CheckReport& report) {
    std::string text = verdictLine(report);
    text += labelled("Part", printable(fmt::format("{}, {:.4g} mm {}, {}", report.part.name, report.part.thickness_mm,
                                                   report.part.material, counted(report.part.bends.size(), "bend"))));
    text += labelled("Brakes", brakesLine(report));
    text += group(report, Severity::kOverload, "Overloads");
    text += group(report, Severity::kFault, "Faults");
    text += group(report, Severity::kWarning, "Warnings");
    text += group(report, Severity::kNote, "Notes");
    if (!report.warnings.empty()) text += "\n" + heading("Said of the part", '-');
    for (const std::string& warning : report.warnings) text += bullet(printable(warning));
    text += "\n" + wrapped("", "",
                           "\"tinwright explain ID\" tells the formula and the source of each. They are rules of thumb "
                           "and published tables, no measurement of your sheet.",
                           kReportColumns);
    return text + "\n" + safetyText(report.kinds);
}

std::string ruleText(const Rule& rule) {
    std::string text = wrapped("", "  ", fmt::format("{}: {}", rule.id, rule.title), kReportColumns);
    text += labelled("What happens", rule.meaning);
    text += labelled("Formula", rule.formula);
    text += labelled("Source", rule.source);
    text += labelled("Cure", rule.cure);
    return text;
}

std::string ruleList() {
    std::string text;
    for (const Rule& rule : formingRules())
        text += wrapped(fmt::format("{:<{}}", rule.id, kIdColumns), std::string(kIdColumns, ' '), rule.title,
                        kReportColumns);
    return text;
}

}  // namespace tinwright
