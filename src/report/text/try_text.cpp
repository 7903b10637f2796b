// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/report/text/text.h>

#include <algorithm>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>

#include "sentences/fold_text.h"
#include "sentences/reason_text.h"
#include "words/safety_text.h"
#include "words/words.h"
#include "words/wrap.h"

namespace tinwright {
namespace {

using namespace report;

std::size_t possibleSteps(const TryResult& result) {
    std::size_t count = 0;
    for (const TriedStep& step : result.steps) count += step.possible ? 1 : 0;
    return count;
}

std::string verdictLine(const TryReport& report, const BrakeTry& tried) {
    const std::size_t done = possibleSteps(tried.result);
    const std::string what = report.part.name + " on " + tried.result.brake->name;
    std::string text;
    if (tried.result.verdict == Verdict::kFeasible) {
        text = fmt::format("THIS ORDER WORKS: {}, {}.", what, counted(done, "fold"));
    } else {
        const bool open = tried.result.verdict == Verdict::kUndecided;
        text = fmt::format("{}: {} stops at fold {} of {}.", open ? "UNDECIDED" : "THIS ORDER DOES NOT WORK", what,
                           std::min(done + 1, report.order.size()), report.order.size());
    }
    return wrapped("", "  ", text, kReportColumns);
}

std::string failedText(const TryReport& report, const TriedStep& step, const FoldPlace& place) {
    const std::string title =
        fmt::format("Fold {} of {}: {} {}", place.number, place.count, strokeName(report.part, step.bends),
                    step.undecided ? "could not be decided" : "cannot be made");
    return wrapped("", "    ", title, kReportColumns) + reasonsText(report.part, step.reasons);
}

std::string stepsText(const TryReport& report, const BrakeTry& tried) {
    FoldPlace place{1, report.order.size(), report.formed, nullptr};
    const BrakeInSetup& brake = tried.result.brake;
    std::string text;
    for (const TriedStep& step : tried.result.steps) {
        text +=
            "\n" + (step.possible ? foldText(report.part, brake, step.step, place) : failedText(report, step, place));
        place.formed_before |= maskOf(step.bends);
        place.before = step.possible ? &step.step : nullptr;
        ++place.number;
    }
    return text;
}

/// Folds after the one that stops the order were not looked at, and that is said.
std::string restText(const TryReport& report, const TryResult& result) {
    if (result.steps.size() >= report.order.size()) return "";
    std::vector<std::string> rest;
    for (std::size_t i = result.steps.size(); i < report.order.size(); ++i) {
        rest.push_back(strokeName(report.part, report.order[i]));
    }
    return wrapped("", "  ", "Not looked at, since the order stops before: " + listed(rest), kReportColumns);
}

/// Bends that the order leaves flat are no failure, but must not go unsaid.
std::string flatText(const TryReport& report) {
    BendMask formed = report.formed;
    for (const std::vector<BendId>& stroke : report.order) formed |= maskOf(stroke);
    const std::vector<std::string> flat = bendNames(report.part, allFormed(report.part) & ~formed);
    return flat.empty() ? "" : wrapped("", "  ", "Still flat after it: " + listed(flat), kReportColumns);
}

}  // namespace

std::string tryText(const TryReport& report) {
    std::string text;
    std::vector<MachineKind> kinds;
    for (const BrakeTry& tried : report.brakes) {
        if (!text.empty()) text += "\n";
        text += verdictLine(report, tried) + stepsText(report, tried) + "\n" + restText(report, tried.result);
        kinds.push_back(kindOf(*tried.result.brake));
    }
    text += flatText(report);
    for (const std::string& warning : report.warnings) text += wrapped("Warning: ", "  ", warning, kReportColumns);
    return text + safetyText(kinds);
}

}  // namespace tinwright
