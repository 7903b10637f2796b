// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/report/text/text.h>

#include <fmt/format.h>

#include <tinwright/report/data/columns.h>
#include <tinwright/report/sentences/allowance_text.h>

#include "document/document.h"
#include "kinds/brake_words.h"
#include "sentences/trouble_words.h"
#include "text/fold_block.h"
#include "text/split_block.h"
#include "words/words.h"
#include "words/wrap.h"

namespace tinwright {
namespace {

using namespace report;

std::string titled(const std::string& title, const std::vector<std::string>& lines) {
    std::string text = title + "\n";
    for (const std::string& line : lines) text += bullet(line);
    return text;
}

std::string sectionText(const Section& section) {
    return titled(section.title, section.lines) + (section.lines.empty() ? bullet(section.instead) : "");
}

/// With a blank line after it; nothing without lines.
std::string apart(const Section& section) {
    return section.lines.empty() ? "" : titled(section.title, section.lines) + "\n";
}

std::string partLine(const PlanDocument& document) {
    const Part& part = document.report.part;
    const std::vector<std::string> formed = bendNames(part, document.report.formed);
    const std::string folded = formed.empty() ? "" : "; already folded: " + listed(formed);
    const std::string rules = allowanceText(part);
    return labelled("Part", part.name + ", " + document.sheet + folded) +
           (rules.empty() ? "" : labelled("Allowance", rules)) + labelled("Shop", document.report.shop.name) +
           (document.pinned.empty() ? "" : labelled("Pinned", document.pinned));
}

std::string shownPlanText(const BrakeEntry& brake) {
    const PlanEntry& plan = brake.shown();
    const std::string title = plan.replay.failed() ? "An order that FAILED its replay" : brake.shown_title;
    std::string text = wrapped("", "  ", fmt::format("{}: {}", title, plan.order), kReportColumns);
    text += labelled("Time", "about " + plan.time + " by the shop's own figures" +
                                 (brake.proven.empty() ? "" : "; " + brake.proven));
    if (!brake.free_runs.empty())
        text += labelled("Free", "in any order: " + brake.free_runs + "; each such order works and takes as long");
    const std::string tight =
        plan.plan.tight ? fmt::format(", TIGHT: the shop wants {} mm", millimetres(brake.on.shop.limits.clearance_mm))
                        : "";
    text += labelled("Closest", plan.clearance + " mm over the whole plan" + tight) + replayText(plan.replay);
    if (!plan.spoils.empty()) text += labelled("Spoils", plan.spoils);
    if (!plan.care.empty()) text += labelled("Care", plan.care);
    for (const FoldEntry& fold : plan.folds) text += "\n" + foldText(fold);
    return text;
}

std::string otherPlansText(const BrakeEntry& brake) {
    if (brake.plans.size() < 2) return "";
    std::string text = "\n" + brake.others_title + "\n";
    for (const PlanEntry* plan : brake.others())
        text += wrapped("  ", "     ", plan->difference, kReportColumns) + replayText(plan->replay);
    return text;
}

std::string plansText(const BrakeEntry& brake) {
    if (brake.plans.empty()) return "";
    std::string text = shownPlanText(brake);
    for (const Section& section : brake.of_plans) text += "\n" + sectionText(section);
    if (!brake.result().forced_all_known)
        text += labelled("Note", "not every pair of bends could be looked at for what must come first");
    return text + otherPlansText(brake);
}

std::string whyNotText(const WhyNot& why) {
    if (why.told.empty()) return {};
    std::string text = why.title + "\n";
    if (!why.introduction.empty()) text += wrapped("  ", "  ", why.introduction, kReportColumns);
    for (const CauseEntry& cause : why.causes) {
        if (!cause.title.empty()) text += "  " + cause.title + "\n";
        for (const ReasonSentence& sentence : cause.sentences) text += bullet(sentence.words);
    }
    return text;
}

std::string brakeText(const BrakeEntry& brake) {
    const BrakeResult& result = brake.result();
    std::string text = heading(fmt::format("{}: {}, {}", result.brake->name, brake.verdict, brake.count), '-');
    if (!brake.without_pins.empty()) text += labelled("Unpinned", brake.without_pins);
    if (!brake.set_up.empty()) text += labelled(wordsFor(*brake.on.brake).terms.set_up_label, brake.set_up);
    if (!brake.tools.empty()) text += labelled("Tools", brake.tools);
    text += plansText(brake) + whyNotText(brake.why_not);
    for (const Section& section : brake.of_brake) text += (brake.plans.empty() ? "" : "\n") + sectionText(section);
    if (brake.plans.empty() && !result.model.empty()) text += labelled("Looked at", result.model);
    for (const std::string& note : result.notes) text += labelled("Note", note);
    return text;
}

/// Overloads, faults and warnings; notes are for `tinwright check`.
std::string metalText(const PlanDocument& document) {
    std::string text;
    std::size_t notes = 0;
    for (const Finding& finding : document.findings) {
        if (finding.severity == Severity::kNote) {
            ++notes;
            continue;
        }
        const std::string where = finding.brake.empty() || document.brakes.size() < 2 ? "" : finding.brake + ", ";
        text += bullet(fmt::format("{}{}{}: {} ({}){}", gravityWords(finding), where, finding.feature, finding.words,
                                   finding.id, finding.remedies.empty() ? "" : "; cure: " + finding.remedies.front()));
    }
    if (text.empty() && notes == 0) return {};
    if (text.empty()) text = bullet("nothing that spoils the part");
    if (notes > 0) text += bullet(fmt::format("{} more: tinwright check tells them", counted(notes, "note")));
    return "Before metal is cut\n" + text + "\n";
}

}  // namespace

std::string planText(const PlanReport& report) {
    const PlanDocument document = planDocument(report);
    std::string text = wrapped("", "  ", document.verdict, kReportColumns);
    if (document.replay_failed) {
        text += wrapped("", "  ", "!! A plan below FAILED its independent replay. It does not count as a plan.",
                        kReportColumns);
    }
    text +=
        partLine(document) + "\n" + apart(document.as_made) + apart(document.made_cures) + apart(document.side_by_side);
    for (const BrakeEntry& brake : document.brakes) text += brakeText(brake) + "\n";
    return text + splitText(document) + apart(document.needs) + metalText(document) +
           apart({"Warnings", report.warnings, {}}) + titled("Safety", document.cautions);
}

}  // namespace tinwright
