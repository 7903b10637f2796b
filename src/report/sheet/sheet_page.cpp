// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/report/sheet/sheet.h>

#include <fmt/format.h>

#include <tinwright/brake/machines/hemming.h>

#include "paper/html.h"
#include "sentences/order_text.h"
#include "sentences/search_words.h"
#include "sheet/sheet_parts.h"
#include "words/safety_text.h"
#include "words/text_width.h"
#include "words/words.h"

namespace tinwright {
namespace {

using namespace report;

bool failedCheck(const BrakeReport& brake) {
    return !brake.checks.empty() && brake.checks.front().checked && !brake.checks.front().findings.empty();
}

std::string planHead(const SheetWork& work, const Plan& plan) {
    std::string text = element("p", "Best order: " + orderList(work.part(), plan), "big");
    text += element(
        "p", fmt::format("About {} by the shop's own figures, {}; nothing nearer than {} mm over the whole plan{}.",
                         duration(plan.cost_ms), provenWords(work.brake_report.result),
                         atLeastMillimetres(plan.worst_clearance_mm), plan.tight ? ", TIGHT" : ""));
    if (const std::string runs = freeRuns(plan); !runs.empty()) {
        text += element(
            "p", "In any order: " + runs +
                     ". Each such order works and takes as long; bars and turns are told for the order as listed.");
    }
    return text;
}

std::string legend(bool is_press) {
    if (is_press) {
        return element(
            "p",
            "In the sections, drawn at the end of the stroke: solid black is the sheet; dashed is how it lay before, "
            "dotted where it passes; "
            "crossed hatching is punch and die, single hatching ram and bed; tinted is the finger of the back gauge at "
            "its stop; thin lines are what lies behind or before the cut. Dies stand still, the punch "
            "comes down; front and back each rise by half of the angle. From above: tinted is the die under the sheet, "
            "the outline on it the punch. The two rows "
            "are seen from the front, heights not to scale. The ring marks where it is tightest. ± is ISO 2768-1 class "
            "m, or what "
            "the cut holds by ISO 9013 where that is more: off by more, stop and find out why before the next fold.");
    }
    return element(
        "p",
        "In the sections: solid black is held, outlined swings; dashed is where it ends, dotted where it passes; "
        "crossed hatching is "
        "the bar, single hatching bed, beam and leaf; thin lines are what lies behind or before the cut. The ring "
        "marks where it is tightest. ± is ISO 2768-1 class m, or what "
        "the cut holds by ISO 9013 where that is more: off by more, stop and find out why before the next fold.");
}

std::string otherPlans(const SheetWork& work) {
    const std::vector<Plan>& plans = work.brake_report.result.plans;
    std::vector<std::string> lines;
    for (std::size_t i = 1; i < plans.size(); ++i)
        lines.push_back(unwrapped(nextBestText(work.part(), work.brake, plans, i)));
    return lines.empty() ? "" : wrap("div", element("h3", "Other orders") + list(lines), "keep");
}

std::string planSections(const SheetWork& work) {
    const Plan& plan = work.brake_report.result.plans.front();
    std::string text = planHead(work, plan);
    if (failedCheck(work.brake_report)) {
        text += element("p", "NOT VERIFIED: an independent replay disagrees. Do not fold from this sheet.", "no big");
        text += list(work.brake_report.checks.front().findings);
    }
    text += metalSection(work) + blankSection(work, &plan) + cutSection(work) + setUpSection(work, plan) +
            element("h3", "Folds") + legend(work.brake->isPress());
    FoldPlace place{1, plan.folds.size(), work.report.formed, nullptr};
    for (const FoldStep& step : plan.folds) {
        text += foldCard(work, step, place);
        place.formed_before |= maskOf(step.bends);
        place.before = &step;
        ++place.number;
    }
    const std::vector<std::string> forced = forcedWords(work.part(), work.brake_report.result);
    if (!forced.empty()) text += wrap("div", element("h3", "In every order that works") + list(forced), "keep");
    return text + weldSection(work) + otherPlans(work);
}

std::string brakeSection(const SheetWork& work) {
    const BrakeResult& result = work.brake_report.result;
    std::string text = element("h2", result.brake->name + ": " + toText(result.verdict));
    if (!result.notes.empty()) text += wrap("div", list(result.notes), "warn");
    text +=
        result.plans.empty() ? metalSection(work) + blankSection(work, nullptr) + cutSection(work) : planSections(work);
    text += reasonSection(work) + remedySection(work);
    return text +
           wrap("div", element("h3", "Cautions for this machine") + list(cautions({kindOf(*work.brake)})), "keep");
}

std::string verdictText(const PlanReport& report) {
    if (report.split) return "goes on no single brake, but over two";
    switch (report.verdict) {
        case Verdict::kFeasible: return "can be folded";
        case Verdict::kInfeasible: return "cannot be folded: no order works";
        case Verdict::kUndecided: return "is undecided: no order is proven";
    }
    return {};
}

}  // namespace

BenchSheet benchSheet(const PlanReport& report, const SheetExtras& extras) {
    BenchSheet sheet;
    std::string body = element("h1", "Bench sheet: " + report.part.name);
    body +=
        element("p", fmt::format("{}; {:.4g} mm {}, {}; this part {}.", report.shop.name, report.part.thickness_mm,
                                 report.part.material, counted(report.part.bends.size(), "bend"), verdictText(report)));
    if (!report.warnings.empty())
        body += wrap("div", element("h3", "Before you start") + list(report.warnings), "keep warn");
    body += splitSection(report, extras, sheet.drawings);
    for (const BrakeReport& brake : report.brakes) {
        const PartOnBrake folded = partOnBrake(report.part, report.shop, brake.result.brake);
        const PartShapes shapes(folded);
        const ToolShapes tools(brake.result.brake);
        const std::string prefix = report.brakes.size() > 1 ? brake.result.brake->name + "-" : "";
        body += brakeSection({report, brake, brake.result.brake, shapes, tools, extras, prefix, sheet.drawings});
    }
    sheet.html = pageHead(report.part.name) + wrap("body", body) + "</html>\n";
    return sheet;
}

}  // namespace tinwright
