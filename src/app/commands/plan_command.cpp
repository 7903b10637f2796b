// SPDX-License-Identifier: GPL-3.0-or-later
#include "commands/commands.h"

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include <tinwright/base/words.h>
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/report/json/constraints_json.h>
#include <tinwright/report/json/plan_json.h>
#include <tinwright/report/text/text.h>
#include <tinwright/sequence/plan/planner.h>

#include "console/complain.h"
#include "console/exit_code.h"
#include "files/output_file.h"
#include "files/part_file.h"
#include "files/pinned_inputs.h"
#include "files/sheet_output.h"
#include "work/plan_part.h"
#include "work/replay.h"

namespace tinwright::app {
namespace {

constexpr const char* kPlanHelp =
    "Examples:\n"
    "  tinwright plan part.json --shop shop.json\n"
    "      on every brake of the shop\n"
    "  tinwright plan part.json --shop shop.json --brake finger --plans 5\n"
    "      the five best orders on one brake\n"
    "  tinwright plan part.json --shop shop.json --plans 6 --compare\n"
    "      six orders side by side: what each spoils, the care it wants, time\n"
    "  tinwright plan part.json --shop shop.json --formed left,right\n"
    "      the rest of a part with two bends already folded\n"
    "  tinwright plan part.json --shop shop.json --formed back --made left=35.2 --made-angle left=88\n"
    "      the rest of a part whose left flange, folded too, measures 35.2 mm outside and 88 degrees\n"
    "  tinwright plan part.json --shop shop.json --json - > plan.json\n"
    "      for another program\n"
    "  tinwright plan bracket.dxf --shop shop.json --bend-layer FOLDS --units in\n"
    "      a flat blank from a drawing, with bracket.bends.json beside it\n"
    "  tinwright plan part.json --shop shop.json --sheet sheet.html\n"
    "      drawings and cards for the bench\n"
    "  tinwright plan part.json --shop shop.json --robust\n"
    "      orders that go whatever sheet, cutting and bends come out within the shop's tolerances\n"
    "  tinwright plan part.json --shop shop.json --hold back=floor --first left,right --avoid-bar B30\n"
    "      held, begun and tooled as you say; the rest is planned. When no order works so, it is told whether one\n"
    "      does without\n"
    "  tinwright plan part.json --shop shop.json --pick 2 --sheet sheet.html\n"
    "      the sheet of the second-best order\n";

struct PlanArguments {
    JobChoice job;
    EffortChoice effort;
    std::optional<std::string> json;         ///< file, or "-"
    std::optional<std::string> constraints;  ///< file for the order problem
    SheetChoice drawings;
    bool compare = false;        ///< the orders side by side, instead of the best fold by fold
    std::optional<double> pick;  ///< rank of the order that is shown
    PinChoice pins;
    bool verify = false;
    bool no_remedies = false;  ///< do not look for what would lift an infeasible verdict
};

std::vector<Option> effortOptions(EffortChoice& effort) {
    return {numberOption(kPlansOption, effort.plans), numberOption(kThreadsOption, effort.threads),
            numberOption(kTimeLimitOption, effort.time_limit_s), numberOption(kWorkOption, effort.work),
            numberOption(kMemoryOption, effort.memory_mb)};
}

std::vector<Option> outputOptions(PlanArguments& arguments) {
    std::vector<Option> options{jsonOption("plan", arguments.json)};
    append(options, sheetOptions(arguments.drawings));
    append(options, {numberOption(kPickOption, arguments.pick),
                     {.name = "--export-constraints",
                      .target = &arguments.constraints,
                      .meaning = "write the order problem as JSON, for other solvers",
                      .type = "FILE"}});
    return options;
}

std::vector<Option> planOptions(PlanArguments& arguments) {
    std::vector<Option> options = jobOptions(arguments.job);
    append(options, madeOptions(arguments.job));
    append(options, effortOptions(arguments.effort));
    append(options, outputOptions(arguments));
    append(options, {{.name = "--compare",
                      .target = &arguments.compare,
                      .meaning = "the ranked orders side by side in a table, instead of the best one fold by fold"},
                     {.name = "--verify",
                      .target = &arguments.verify,
                      .meaning = "replay every plan with an independent collision check"},
                     {.name = "--robust",
                      .target = &arguments.effort.robust,
                      .meaning = "only orders whose folds are all shown to hold over the shop's tolerances; undecided "
                                 "when none is but some go as drawn"},
                     {.name = "--no-remedies",
                      .target = &arguments.no_remedies,
                      .meaning = "when no order works, or only a tight one: do not look for what would lift it"}});
    append(options, pinOptions(arguments.pins, true));
    return options;
}

Issues writeConstraints(const std::string& path, const Inputs& inputs, const PlanReport& report,
                        const std::vector<std::string>& files) {
    std::vector<BrakeConstraints> brakes;
    for (const BrakeReport& of : report.brakes) {
        const BrakeInSetup& brake = of.result.brake;
        brakes.push_back(
            {brake->name, constraintsOn(inputs.part, inputs.shop, brake, inputs.formed, inputs.pins, inputs.sheet())});
    }
    return writeFile(path, constraintsJson(inputs.part, brakes), files);
}

/// Files first: when one cannot be written, no text claims that all went well.
Issues writeAll(const PlanArguments& arguments, const Inputs& inputs, const PlanReport& report) {
    const std::vector<std::string> files = inputFiles(arguments.job.part, arguments.job.shop);
    Issues issues;
    if (arguments.constraints) issues = writeConstraints(*arguments.constraints, inputs, report, files);
    if (issues.empty()) issues = writeSheet(arguments.drawings, files, report, inputs.material);
    if (!issues.empty()) return issues;
    return writeAnswer(
        arguments.json, files, [&] { return planJson(report); },
        [&] { return arguments.compare ? comparisonText(report) : planText(report); });
}

/// Every brake on which some order works must have the one that is picked.
Issues checkPick(const std::optional<double>& pick, const PlanReport& report) {
    if (!pick) return {};
    std::vector<std::string> there;
    bool has_all = true;
    for (const BrakeReport& brake : report.brakes) {
        if (brake.result.plans.empty()) continue;
        has_all = has_all && brake.shownPlan() != nullptr;
        there.push_back(fmt::format("{} on {}", counted(brake.result.plans.size(), "order"), brake.result.brake->name));
    }
    if (goesOverTwo(report)) {
        has_all = *pick == 1;
        there = {"1 order over two brakes"};
    }
    if (has_all) return {};
    return {{"plan.pick", "command line", "--pick", fmt::format("{:.0f}", *pick),
             "one of those that work: " + listed(there), there.size() > 1 ? "--brake NAME picks on one of them" : ""}};
}

int runPlan(const PlanArguments& arguments) {
    Result<Inputs> read = readInputs(arguments.job);
    if (!read) return complain(read.issues());
    Inputs& inputs = read.value();
    if (const Issues issues = pinInputs(arguments.pins, inputs); !issues.empty()) return complain(issues);
    const std::string title =
        inputs.brakes.size() == 1 ? inputs.shop.brakes[inputs.brakes.front()].name : std::string("planning");
    EffortChoice effort = arguments.effort;
    effort.plans = std::max(effort.plans, arguments.pick.value_or(0));
    PlanReport report = planPart(arguments.job.part, effort, !arguments.no_remedies, title, inputs,
                                 static_cast<std::size_t>(arguments.pick.value_or(0)));
    if (arguments.verify) replayPlans(report, static_cast<int>(effort.threads));
    if (const Issues issues = checkPick(arguments.pick, report); !issues.empty()) return complain(issues);
    const Issues issues = writeAll(arguments, inputs, report);
    return issues.empty() ? exitCode(report.verdict) : complain(issues);
}

}  // namespace

Command planCommand() {
    return makeCommand("plan", "Rank the orders of folds that work, with bars or punches, holds and clearances.",
                       std::string(kPlanHelp) + kVerdictExitCodes, planOptions, runPlan);
}

}  // namespace tinwright::app
