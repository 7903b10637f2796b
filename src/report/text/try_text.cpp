// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/report/text/text.h>

#include <algorithm>

#include <fmt/format.h>

#include "document/fold_entry.h"
#include "kinds/brake_words.h"
#include "sentences/made_text.h"
#include "sentences/reason_text.h"
#include "sentences/trouble_words.h"
#include "text/fold_block.h"
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
    } else if (tried.result.verdict == Verdict::kWithTrouble) {
        text = fmt::format("THIS ORDER WORKS WITH TROUBLE: {}, {}; it spoils {}.", what, counted(done, "fold"),
                           spoiltBrief(spoiling(tried, report.formed)));
    } else {
        const bool open = tried.result.verdict == Verdict::kUndecided;
        text = fmt::format("{}: {} stops at fold {} of {}.", open ? "UNDECIDED" : "THIS ORDER DOES NOT WORK", what,
                           std::min(done + 1, report.order.size()), report.order.size());
    }
    return wrapped("", "  ", text, kReportColumns);
}

/// How a stroke is pinned to be held: " with floor held".
std::string pinnedHold(const FoldContext& on, const TriedStep& step, const Pins& pins) {
    std::vector<std::string> panels;
    for (const HoldPin& pin : pins.holds) {
        if (contains(maskOf(step.bends), pin.bend)) panels.push_back(on.part.panel(pin.panel).name);
    }
    return panels.empty() ? "" : " when it " + wordsFor(*on.brake).has(listed(panels));
}

std::string failedText(const FoldContext& on, const TriedStep& step, const FoldPlace& place, const Pins& pins) {
    const std::string title =
        fmt::format("Fold {} of {}: {} {}{}", place.number, place.count, strokeName(on.part, step.bends),
                    step.undecided ? "could not be decided" : "cannot be made", pinnedHold(on, step, pins));
    std::string text = wrapped("", "    ", title, kReportColumns);
    if (step.reasons.empty() && !step.undecided) text += bullet("the sides pinned for its bends do not go together");
    for (const ReasonSentence& sentence : sentencesOf(on, step.reasons)) text += bullet(sentence.words);
    return text;
}

std::string stepsText(const TryReport& report, const BrakeTry& tried) {
    const FoldContext on{report.part, report.shop, tried.result.brake};
    const std::vector<TriedStep>& steps = tried.result.steps;
    const std::vector<FoldPlace> places = foldPlaces(steps, report.order.size(), report.formed);
    std::vector<FoldStep> folds;  // those that go come first
    for (const TriedStep& step : steps) {
        if (step.possible) folds.push_back(step.step);
    }
    const std::vector<FoldActions> actions = foldActions(on.brake, folds);
    std::string text;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        if (!steps[i].possible) {
            text += "\n" + failedText(on, steps[i], places[i], report.pins);
            continue;
        }
        FoldEntry fold = foldEntry(on, steps[i].step, places[i], actions[i]);
        if (i < tried.fold_findings.size()) fold.findings = tried.fold_findings[i];
        text += "\n" + foldText(fold);
    }
    return text;
}

/// What else of part and brake is more than a note.
std::string metalText(const BrakeTry& tried) {
    std::string text;
    for (const Finding& finding : tried.findings) {
        if (finding.severity != Severity::kNote)
            text +=
                bullet(fmt::format("{}{}: {} ({})", gravityWords(finding), finding.feature, finding.words, finding.id));
    }
    return text.empty() ? text : "Before metal is cut\n" + text;
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

std::string madeText(const TryReport& report) {
    if (!report.made) return "";
    const auto block = [](const std::string& title, const std::vector<std::string>& lines) {
        std::string text = lines.empty() ? "" : title + "\n";
        for (const std::string& line : lines) text += bullet(line);
        return text;
    };
    return block(kMadeTitle, madeLines(report.part, *report.made, report.formed)) +
           block(kMadeCureTitle, madeCures(report.part, *report.made)) + "\n";
}

}  // namespace

std::string tryText(const TryReport& report) {
    std::string text;
    std::vector<MachineKind> kinds;
    for (const BrakeTry& tried : report.brakes) {
        if (!text.empty()) text += "\n";
        text += verdictLine(report, tried) + stepsText(report, tried) + "\n" + restText(report, tried.result) +
                metalText(tried);
        kinds.push_back(kindOf(*tried.result.brake));
    }
    text += madeText(report) + flatText(report);
    for (const std::string& warning : report.warnings) text += wrapped("Warning: ", "  ", warning, kReportColumns);
    return text + safetyText(kinds);
}

}  // namespace tinwright
