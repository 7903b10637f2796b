// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/report/sheet/sheet.h>

#include <fmt/format.h>

#include <tinwright/brake/machines/hemming.h>
#include <tinwright/report/data/columns.h>

#include "kinds/brake_words.h"
#include "paper/html.h"
#include "sheet/sheet_parts.h"
#include "words/text_width.h"
#include "words/words.h"
#include "words/wrap.h"

namespace tinwright {
namespace {

using namespace report;

std::string planHead(const BrakeEntry& brake) {
    const PlanEntry& plan = brake.shown();
    std::string text = element("p", brake.shown_title + ": " + plan.order, "big");
    text += element(
        "p", fmt::format("About {} by the shop's own figures{}{}; nothing nearer than {} mm over the whole plan{}.",
                         plan.time, brake.proven.empty() ? "" : ", ", brake.proven, plan.clearance,
                         plan.plan.tight ? ", TIGHT" : ""));
    if (!plan.spoils.empty()) text += element("p", "This order spoils something: " + plan.spoils + ".", "no");
    if (!plan.care.empty()) text += element("p", "Care: " + plan.care + ".");
    if (!brake.free_runs.empty()) {
        text += element(
            "p", "In any order: " + brake.free_runs +
                     ". Each such order works and takes as long; bars and turns are told for the order as listed.");
    }
    return text;
}

std::string otherPlans(const BrakeEntry& brake) {
    Section others{"Other orders", {}, {}};
    for (const PlanEntry* plan : brake.others())
        others.lines.push_back(unwrapped(wrapped("  ", "     ", plan->difference, kReportColumns)));
    return others.lines.empty() ? "" : sectionHtml(others);
}

std::string planSections(const SheetWork& work, const BrakeEntry& brake) {
    const PlanEntry& plan = brake.shown();
    std::string text = planHead(brake) + replayWarning(plan.replay);
    text += metalSection(work) + blankSection(work, &plan.plan) + cutSection(work) + setUpSection(work, plan) +
            element("h3", "Folds") + element("p", wordsFor(*work.brake).terms.sheet.legend);
    for (const FoldEntry& fold : plan.folds) text += foldCard(work, fold);
    for (const Section& section : brake.of_plans) text += sectionHtml(section);
    return text + weldSection(work) + otherPlans(brake);
}

std::string brakeSection(const SheetWork& work, const BrakeEntry& brake) {
    const BrakeResult& result = brake.result();
    std::string text = element("h2", result.brake->name + ": " + brake.verdict);
    if (!brake.without_pins.empty()) text += element("p", "No order works as pinned; " + brake.without_pins + ".");
    if (!result.notes.empty()) text += wrap("div", list(result.notes), "warn");
    text += brake.plans.empty() ? metalSection(work) + blankSection(work, nullptr) + cutSection(work)
                                : planSections(work, brake);
    text += reasonSection(work, brake);
    for (const Section& section : brake.of_brake) text += sectionHtml(section);
    return text + sectionHtml({"Cautions for this machine", brake.cautions, {}});
}

}  // namespace

std::string report::replayWarning(const ReplayEntry& replay) {
    if (!replay.failed()) return {};
    return element("p", "NOT VERIFIED: an independent replay disagrees. Do not fold from this sheet.", "no big") +
           list(replay.findings);
}

BenchSheet benchSheet(const PlanReport& report, const SheetExtras& extras) {
    const PlanDocument document = planDocument(report);
    BenchSheet sheet;
    std::string body = element("h1", "Bench sheet: " + report.part.name);
    body +=
        element("p", fmt::format("{}; {}; this part {}.", report.shop.name, document.sheet, document.verdict_of_it));
    if (!document.pinned.empty()) body += element("p", "Pinned: " + document.pinned + ".");
    if (!report.warnings.empty())
        body += wrap("div", element("h3", "Before you start") + list(report.warnings), "keep warn");
    for (const Section& section : {document.as_made, document.made_cures})
        body += section.lines.empty() ? "" : sectionHtml(section);
    body += splitSection(document, extras, sheet.drawings);
    for (const BrakeEntry& brake : document.brakes) {
        const PartOnBrake folded = partOnBrake(report.part, report.shop, brake.on.brake);
        const PartShapes shapes(folded);
        const ToolShapes tools(brake.on.brake);
        const std::string prefix = report.brakes.size() > 1 ? brake.result().brake->name + "-" : "";
        body +=
            brakeSection({report, brake.report, brake.on.brake, shapes, tools, extras, prefix, sheet.drawings}, brake);
    }
    sheet.html = pageHead(report.part.name) + wrap("body", body) + "</html>\n";
    return sheet;
}

}  // namespace tinwright
