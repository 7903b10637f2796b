// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/report/text/text.h>

#include <algorithm>
#include <cctype>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/report/sentences/allowance_text.h>

#include "sentences/fold_text.h"
#include "sentences/needs_text.h"
#include "sentences/order_text.h"
#include "sentences/reason_text.h"
#include "sentences/remedy_text.h"
#include "sentences/screen_words.h"
#include "sentences/search_words.h"
#include "sentences/split_text.h"
#include "sentences/vee_text.h"
#include "words/safety_text.h"
#include "words/words.h"
#include "words/wrap.h"

namespace tinwright {
namespace {

using namespace report;

const BrakeInSetup& brakeOf(const BrakeReport& brake) { return brake.result.brake; }

std::string upper(std::string text) {
    for (char& c : text) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    return text;
}

std::string brakesWith(const PlanReport& report, Verdict verdict) {
    std::vector<std::string> names;
    for (const BrakeReport& brake : report.brakes) {
        if (brake.result.verdict == verdict) names.push_back(brake.result.brake->name);
    }
    return listed(names);
}

bool hasFindings(const PlanCheck& check) { return check.checked && !check.findings.empty(); }

bool anyFailedCheck(const PlanReport& report) {
    for (const BrakeReport& brake : report.brakes) {
        for (const PlanCheck& check : brake.checks) {
            if (hasFindings(check)) return true;
        }
    }
    return false;
}

bool onlyHolding(const PlanReport& report) {
    return std::any_of(report.brakes.begin(), report.brakes.end(),
                       [](const BrakeReport& brake) { return brake.result.only_holding; });
}

std::string verdictLine(const PlanReport& report) {
    const std::string part = report.part.name + " ";
    std::string text = upper(toText(report.verdict)) + ": ";
    switch (report.verdict) {
        case Verdict::kFeasible:
            text += part + "can be folded on " + brakesWith(report, Verdict::kFeasible) +
                    (onlyHolding(report) ? ", by orders that are shown to hold over the tolerances." : ".");
            break;
        case Verdict::kInfeasible:
            text += part + "cannot be folded on " + brakesWith(report, Verdict::kInfeasible) + ": no order works.";
            break;
        case Verdict::kUndecided:
            text += part +
                    (onlyHolding(report) ? "is not shown to hold over the tolerances in any order on "
                                         : "is neither shown to go nor shown not to on ") +
                    brakesWith(report, Verdict::kUndecided) + ".";
            break;
    }
    return wrapped("", "  ", text, kReportColumns);
}

std::string partLine(const PlanReport& report) {
    std::string text = fmt::format("{}, {:.4g} mm {}, {}", report.part.name, report.part.thickness_mm,
                                   report.part.material, counted(report.part.bends.size(), "bend"));
    const std::vector<std::string> formed = bendNames(report.part, report.formed);
    if (!formed.empty()) text += "; already folded: " + listed(formed);
    const std::string rules = allowanceText(report.part);
    return labelled("Part", text) + (rules.empty() ? "" : labelled("Allowance", rules)) +
           labelled("Shop", report.shop.name);
}

std::string countText(const BrakeResult& result) {
    if (result.orders_feasible.empty() && result.orders_total.empty()) return "how many orders work is not known";
    const char* work = result.only_holding ? "orders are shown to hold" : "orders work";
    if (result.orders_feasible.empty()) return "how many of the " + result.orders_total + " orders work is not known";
    const std::string total = result.orders_total.empty() ? "an unknown number of" : result.orders_total;
    return fmt::format("{} of {} {}", result.orders_feasible, total, work);
}

std::string checkText(const PlanCheck& check) {
    if (!check.checked) return "";
    if (check.findings.empty()) return labelled("Replay", "an independent replay of this plan found nothing wrong");
    std::string text = wrapped(
        "  !! ", "     ", "NOT VERIFIED: an independent replay disagrees. Do not fold from this plan.", kReportColumns);
    for (const std::string& finding : check.findings) text += bullet(finding);
    return text;
}

const PlanCheck& checkOf(const BrakeReport& brake, std::size_t plan) {
    static const PlanCheck kNone;
    return plan < brake.checks.size() ? brake.checks[plan] : kNone;
}

std::string bestPlanText(const PlanReport& report, const BrakeReport& brake) {
    const Plan& plan = brake.result.plans.front();
    const char* title = hasFindings(checkOf(brake, 0)) ? "An order that FAILED its replay" : "Best order";
    std::string text = wrapped("", "  ", fmt::format("{}: {}", title, orderList(report.part, plan)), kReportColumns);
    text += labelled("Time",
                     "about " + duration(plan.cost_ms) + " by the shop's own figures; " + provenWords(brake.result));
    if (const std::string runs = freeRuns(plan); !runs.empty())
        text += labelled("Free", "in any order: " + runs + "; each such order works and takes as long");
    text += labelled("Closest", fmt::format("{} mm over the whole plan{}", atLeastMillimetres(plan.worst_clearance_mm),
                                            plan.tight ? fmt::format(", TIGHT: the shop wants {} mm",
                                                                     millimetres(report.shop.limits.clearance_mm))
                                                       : ""));
    text += checkText(checkOf(brake, 0));
    FoldPlace place{1, plan.folds.size(), report.formed, nullptr};
    for (const FoldStep& step : plan.folds) {
        text += "\n" + foldText(report.part, brakeOf(brake), step, place);
        place.formed_before |= maskOf(step.bends);
        place.before = &step;
        ++place.number;
    }
    return text;
}

std::string otherPlansText(const PlanReport& report, const BrakeReport& brake) {
    const std::vector<Plan>& plans = brake.result.plans;
    if (plans.size() < 2) return "";
    std::string text = "\nNext best\n";
    for (std::size_t i = 1; i < plans.size(); ++i) {
        text += nextBestText(report.part, brakeOf(brake), plans, i) + checkText(checkOf(brake, i));
    }
    return text;
}

std::string forcedText(const Part& part, const BrakeResult& result) {
    std::string text;
    for (const std::string& sentence : forcedWords(part, result)) text += bullet(sentence);
    if (!text.empty()) text = "\nIn every order that works\n" + text;
    return result.forced_all_known
               ? text
               : text + labelled("Note", "not every pair of bends could be looked at for what must come first");
}

std::string whyNotText(const Part& part, const BrakeResult& result) {
    if (result.reasons.empty()) return {};
    if (result.causes.empty()) return "Why not\n" + reasonsText(part, result.reasons);
    std::string text = "Why not\n" + wrapped("  ", "  ", causesWords(result), kReportColumns);
    for (std::size_t i = 0; i < result.causes.size(); ++i) {
        if (result.causes.size() > 1) text += fmt::format("  Cause {}\n", i + 1);
        text += reasonsText(part, result.causes[i].reasons);
    }
    return text;
}

std::string remediesText(const PlanReport& report, const BrakeReport& brake) {
    if (!brake.remedies) return {};
    const std::vector<std::string> lines = remedyLines(report, *brake.remedies);
    if (lines.empty() && brake.result.verdict == Verdict::kFeasible) return {};
    std::string text = (brake.result.plans.empty() ? "" : "\n") + remedyTitle(brake) + "\n";
    if (lines.empty()) text += bullet(noRemedyText(brakeOf(brake), *brake.remedies));
    for (const std::string& line : lines) text += bullet(line);
    return text;
}

std::string brakeText(const PlanReport& report, const BrakeReport& brake) {
    const BrakeResult& result = brake.result;
    std::string text =
        heading(fmt::format("{}: {}, {}", result.brake->name, toText(result.verdict), countText(result)), '-');
    const BrakeInSetup& machine = brakeOf(brake);
    if (machine.vee() != nullptr) text += labelled("V", veeText(machine, report.part.thickness_mm));
    if (machine.vee() != nullptr && !result.plans.empty())
        text += labelled("Tools", toolsOfPlan(machine, result.plans.front()));
    if (!result.plans.empty())
        text += bestPlanText(report, brake) + forcedText(report.part, result) + otherPlansText(report, brake);
    text += whyNotText(report.part, result);
    text += remediesText(report, brake);
    if (result.plans.empty() && !result.model.empty()) text += labelled("Looked at", result.model);
    for (const std::string& note : result.notes) text += labelled("Note", note);
    return text;
}

std::string sideBySideText(const PlanReport& report) {
    std::string text;
    for (const std::string& line : sideBySide(report)) text += bullet(line);
    return text.empty() ? "" : "Brakes side by side\n" + text + "\n";
}

std::string needsText(const PlanReport& report) {
    std::string text;
    for (const std::string& line : needsLines(report)) text += bullet(line);
    return text.empty() ? "" : "A machine that would make it, each planned with these figures\n" + text + "\n";
}

/// Faults and warnings; notes are for `tinwright check`.
std::string metalText(const PlanReport& report) {
    std::string text;
    std::size_t notes = 0;
    for (const Finding& finding : allFindings(report)) {
        if (finding.severity == Severity::kNote) {
            ++notes;
            continue;
        }
        const std::string where = finding.brake.empty() || report.brakes.size() < 2 ? "" : finding.brake + ", ";
        text += bullet(fmt::format("{}{}{}: {} ({}){}", finding.severity == Severity::kFault ? "FAULT: " : "", where,
                                   finding.feature, finding.words, finding.id,
                                   finding.remedies.empty() ? "" : "; cure: " + finding.remedies.front()));
    }
    if (text.empty() && notes == 0) return {};
    if (text.empty()) text = bullet("nothing that spoils the part");
    if (notes > 0) text += bullet(fmt::format("{} more: tinwright check tells them", counted(notes, "note")));
    return "Before metal is cut\n" + text + "\n";
}

std::string warningsText(const std::vector<std::string>& warnings) {
    if (warnings.empty()) return "";
    std::string text = "Warnings\n";
    for (const std::string& warning : warnings) text += bullet(warning);
    return text + "\n";
}

}  // namespace

std::string planText(const PlanReport& report) {
    std::string text = verdictLine(report);
    if (anyFailedCheck(report)) {
        text += wrapped("", "  ", "!! A plan below FAILED its independent replay. It does not count as a plan.",
                        kReportColumns);
    }
    if (report.split) text += wrapped("", "  ", "It goes over two brakes: " + splitWords(report) + ".", kReportColumns);
    text += partLine(report) + "\n" + sideBySideText(report);
    std::vector<MachineKind> kinds;
    for (const BrakeReport& brake : report.brakes) {
        text += brakeText(report, brake) + "\n";
        kinds.push_back(kindOf(*brakeOf(brake)));
    }
    return text + splitText(report) + needsText(report) + metalText(report) + warningsText(report.warnings) +
           safetyText(kinds);
}

}  // namespace tinwright
