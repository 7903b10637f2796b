// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <fmt/format.h>

#include <tinwright/report/text/suit_text.h>
#include <tinwright/sequence/plan/planner.h>

#include "commands/commands.h"
#include "console/complain.h"
#include "console/exit_code.h"
#include "files/output_file.h"
#include "files/part_file.h"
#include "work/suit_brakes.h"

namespace tinwright::app {
namespace {

/// --take and --output belong together.
Issues checkChoice(const CommandLine& line) {
    if (line.suit.take && line.out_path.empty())
        return {{"suit.output", "command line", "--take", "no --output", "--output FILE for the changed part", ""}};
    if (!line.suit.take && !line.out_path.empty())
        return {{"suit.output", "command line", "--output", "no --take", "--take N, the number of a suggestion", ""}};
    return {};
}

Result<Suggestion> taken(const CommandLine& line, const SuitReport& report) {
    auto number = static_cast<std::size_t>(*line.suit.take);
    std::size_t all = 0;
    for (const BrakeSuit& brake : report.brakes) {
        all += brake.result.suggestions.size();
        if (number <= brake.result.suggestions.size()) return brake.result.suggestions[number - 1];
        number -= brake.result.suggestions.size();
    }
    return Issue{"suit.take",
                 "command line",
                 "--take",
                 fmt::format("{:.0f}", *line.suit.take),
                 all == 0 ? "nothing: there is no suggestion" : fmt::format("a number from 1 to {}", all),
                 ""};
}

Issues writeAll(const CommandLine& line, const SuitReport& report, const SuitSubject& subject) {
    if (line.suit.take) {
        const Result<Suggestion> suggestion = taken(line, report);
        if (!suggestion) return suggestion.issues();
        Issues issues = subject.write(line, suggestion.value());
        if (!issues.empty()) return issues;
    }
    if (line.json && *line.json == "-") return writeStandardOutput(suitJson(report));
    if (line.json) {
        Issues issues = writeFile(*line.json, suitJson(report), inputFiles(line));
        if (!issues.empty()) return issues;
    }
    std::string text = suitText(report);
    if (line.suit.take) text += fmt::format("\nWritten to {}\n", line.out_path);
    return writeStandardOutput(text);
}

int exitCodeOf(const SuitReport& report) {
    const auto any = [&](auto what) { return std::any_of(report.brakes.begin(), report.brakes.end(), what); };
    if (any([](const BrakeSuit& brake) {
            return brake.result.as_drawn.level() > 0 || !brake.result.suggestions.empty();
        }))
        return kFeasibleExit;
    return exitCode(any([](const BrakeSuit& brake) { return brake.result.as_drawn.verdict == Verdict::kUndecided; })
                        ? Verdict::kUndecided
                        : Verdict::kInfeasible);
}

}  // namespace

int runSuit(const CommandLine& line, const Inputs& inputs) {
    const Issues choice = checkChoice(line);
    if (!choice.empty()) return complain(choice);
    const Result<SuitSubject> subject = SuitSubject::read(line, inputs);
    if (!subject) return complain(subject.issues());
    const SuitReport report = suitBrakes(line, inputs, subject.value(), inputs.brakes);
    const Issues issues = writeAll(line, report, subject.value());
    return issues.empty() ? exitCodeOf(report) : complain(issues);
}

}  // namespace tinwright::app
