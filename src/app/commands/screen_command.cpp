// SPDX-License-Identifier: GPL-3.0-or-later
#include <deque>
#include <optional>

#include <tinwright/report/data/screen_report.h>

#include "commands/commands.h"
#include "console/complain.h"
#include "console/exit_code.h"
#include "files/inputs.h"
#include "files/output_file.h"
#include "work/plan_part.h"

namespace tinwright::app {
namespace {

constexpr const char* kScreenHelp =
    "Examples:\n"
    "  tinwright screen housing.json bracket.json tray.json --shop shop.json\n"
    "  tinwright screen parts/*.json --shop shop.json --json table.json\n"
    "Exit codes: 0 every part goes on some brake or over two, 1 one of them does not, 2 bad input or usage, 3 of one "
    "it "
    "is not decided.\n";

struct ScreenArguments {
    std::vector<std::string> part_paths;
    ShopChoice shop;
    EffortChoice effort;
    bool no_remedies = false;
    std::optional<std::string> json;  ///< file, or "-"
};

std::vector<Option> screenOptions(ScreenArguments& arguments) {
    std::vector<Option> options{{.name = "PART",
                                 .target = &arguments.part_paths,
                                 .meaning = "the parts: recipes (JSON), or flat blanks (.dxf)",
                                 .required = true}};
    append(options, shopOptions(arguments.shop));
    append(options,
           {numberOption(kThreadsOption, arguments.effort.threads),
            numberOption(kTimeLimitOption, arguments.effort.time_limit_s),
            numberOption(kWorkOption, arguments.effort.work),
            {.name = "--no-remedies", .target = &arguments.no_remedies, .meaning = "the table and what blocks only"},
            jsonOption("table", arguments.json),
            logOption()});
    return options;
}

struct Screened {
    PartChoice part;
    Inputs inputs;
};

// All of them before any is planned: what is wrong with the last file is told at once.
Issues readParts(const ScreenArguments& arguments, std::deque<Screened>& parts) {
    Issues issues;
    for (const std::string& path : arguments.part_paths) {
        const PartChoice part{path, {}};
        Result<Inputs> inputs = readInputs({part, arguments.shop, ""});
        if (inputs) {
            parts.push_back({part, std::move(inputs).value()});
        } else {
            append(issues, inputs.issues());
        }
    }
    return issues;
}

Verdict worstOf(const std::vector<ScreenedPart>& parts) {
    Verdict worst = Verdict::kFeasible;
    for (const ScreenedPart& part : parts) {
        if (rankOf(part.report.verdict) < rankOf(worst)) worst = part.report.verdict;
    }
    return worst;
}

int runScreen(const ScreenArguments& arguments) {
    std::deque<Screened> read;
    if (const Issues issues = readParts(arguments, read); !issues.empty()) return complain(issues);
    EffortChoice effort = arguments.effort;
    effort.plans = 1;
    std::vector<ScreenedPart> parts;
    for (const auto& [part, inputs] : read)
        parts.push_back({part.path, planPart(part, effort, !arguments.no_remedies, inputs.part.name, inputs)});
    std::vector<std::string> files = arguments.part_paths;
    files.push_back(arguments.shop.path);
    const Issues issues = writeAnswer(
        arguments.json, files, [&] { return screenJson(parts); }, [&] { return screenText(parts); });
    return issues.empty() ? exitCode(worstOf(parts)) : complain(issues);
}

}  // namespace

Command screenCommand() {
    return makeCommand(
        "screen",
        "Which brakes of the shop make which parts: one table, what blocks, and what would help least dearly.",
        kScreenHelp, screenOptions, runScreen);
}

}  // namespace tinwright::app
