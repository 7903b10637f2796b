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

constexpr const char* kSuitHelp =
    "Examples:\n"
    "  tinwright suit part.json --shop shop.json\n"
    "      what might change, and what it buys; each change is planned before it is offered\n"
    "  tinwright suit part.json --shop shop.json --keep side_height --reach 8\n"
    "      by no more than 8 mm, and not the side height\n"
    "  tinwright suit part.json --shop shop.json --take 1 -o part-suited.json\n"
    "      write the part with the first suggestion taken\n"
    "  tinwright suit blank.dxf --shop shop.json --take 1 -o suited.dxf\n"
    "      a drawing is stretched between two parallel bends\n"
    "Exit codes: 0 something is offered or the part goes as drawn, 1 neither, 2 bad input or usage, 3 undecided.\n";

struct SuitArguments {
    JobChoice job;
    DimensionChoice dimensions;
    std::optional<double> take;  ///< number of the suggestion to write
    std::string out_path;
    EffortChoice effort;
    std::optional<std::string> json;  ///< file, or "-"
};

std::vector<Option> suitOptions(SuitArguments& arguments) {
    std::vector<Option> options = jobOptions(arguments.job);
    append(options,
           {{.name = "--only",
             .target = &arguments.dimensions.only,
             .meaning = "change nothing but these dimensions",
             .type = "a,b,...",
             .style = ListStyle::kCommas},
            {.name = "--keep",
             .target = &arguments.dimensions.keep,
             .meaning = "leave these alone, besides those that the part locks",
             .type = "a,b,...",
             .style = ListStyle::kCommas},
            numberOption(kReachOption, arguments.dimensions.reach_mm),
            numberOption(kTakeOption, arguments.take),
            {.name = "-o,--output",
             .target = &arguments.out_path,
             .meaning = "where the changed part goes: a recipe, or for a drawing a .dxf with its bends file beside it",
             .type = "FILE"},
            numberOption(kTimeLimitOption, arguments.effort.time_limit_s),
            jsonOption("suggestions", arguments.json)});
    return options;
}

/// --take and --output belong together.
Issues checkChoice(const SuitArguments& arguments) {
    if (arguments.take && arguments.out_path.empty())
        return {{"suit.output", "command line", "--take", "no --output", "--output FILE for the changed part", ""}};
    if (!arguments.take && !arguments.out_path.empty())
        return {{"suit.output", "command line", "--output", "no --take", "--take N, the number of a suggestion", ""}};
    return {};
}

Result<Suggestion> taken(std::size_t number, const SuitReport& report) {
    const std::size_t wanted = number;
    std::size_t all = 0;
    for (const BrakeSuit& brake : report.brakes) {
        all += brake.result.suggestions.size();
        if (number <= brake.result.suggestions.size()) return brake.result.suggestions[number - 1];
        number -= brake.result.suggestions.size();
    }
    return Issue{"suit.take",
                 "command line",
                 "--take",
                 fmt::format("{}", wanted),
                 all == 0 ? "nothing: there is no suggestion" : fmt::format("a number from 1 to {}", all),
                 ""};
}

Issues writeTaken(const SuitArguments& arguments, const SuitReport& report, const SuitSubject& subject,
                  const std::vector<std::string>& files) {
    if (!arguments.take) return {};
    const Result<Suggestion> suggestion = taken(static_cast<std::size_t>(*arguments.take), report);
    return suggestion ? subject.write(suggestion.value(), arguments.out_path, files) : suggestion.issues();
}

Issues writeAll(const SuitArguments& arguments, const SuitReport& report, const SuitSubject& subject) {
    const std::vector<std::string> files = inputFiles(arguments.job.part, arguments.job.shop);
    Issues issues = writeTaken(arguments, report, subject, files);
    if (!issues.empty()) return issues;
    const std::string written = arguments.take ? fmt::format("\nWritten to {}\n", arguments.out_path) : "";
    return writeAnswer(
        arguments.json, files, [&] { return suitJson(report); }, [&] { return suitText(report) + written; });
}

int exitCodeOf(const SuitReport& report) {
    Verdict best = Verdict::kInfeasible;
    const auto take = [&](Verdict verdict) { best = rankOf(verdict) > rankOf(best) ? verdict : best; };
    for (const BrakeSuit& brake : report.brakes) {
        take(brake.result.as_drawn.verdict);
        for (const Suggestion& suggestion : brake.result.suggestions) take(suggestion.result.verdict);
    }
    return exitCode(best);
}

int runSuit(const SuitArguments& arguments) {
    const Result<Inputs> read = readInputs(arguments.job);
    if (!read) return complain(read.issues());
    const Inputs& inputs = read.value();
    const Issues choice = checkChoice(arguments);
    if (!choice.empty()) return complain(choice);
    const Result<SuitSubject> subject = SuitSubject::read(arguments.job.part, arguments.dimensions, inputs);
    if (!subject) return complain(subject.issues());
    const SuitReport report = suitBrakes(arguments.effort, inputs, subject.value(), inputs.brakes);
    const Issues issues = writeAll(arguments, report, subject.value());
    return issues.empty() ? exitCodeOf(report) : complain(issues);
}

}  // namespace

Command suitCommand() {
    return makeCommand("suit", "Which small changes of dimensions make the part suit the bars or punches of the shop.",
                       kSuitHelp, suitOptions, runSuit);
}

}  // namespace tinwright::app
