// SPDX-License-Identifier: GPL-3.0-or-later
#include "commands/commands.h"

#include <optional>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/report/json/constraints_json.h>
#include <tinwright/report/json/plan_json.h>
#include <tinwright/report/text/text.h>
#include <tinwright/sequence/plan/planner.h>

#include "console/complain.h"
#include "console/exit_code.h"
#include "files/material_of.h"
#include "files/output_file.h"
#include "files/part_file.h"
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
    "      orders that go whatever sheet, cutting and bends come out within the shop's tolerances\n";

struct PlanArguments {
    JobChoice job;
    EffortChoice effort;
    std::optional<std::string> json;         ///< file, or "-"
    std::optional<std::string> constraints;  ///< file for the order problem
    SheetChoice drawings;
    bool verify = false;
    bool no_remedies = false;  ///< do not look for what would lift an infeasible verdict
};

std::vector<Option> effortOptions(EffortChoice& effort) {
    return {numberOption(kPlansOption, effort.plans), numberOption(kThreadsOption, effort.threads),
            numberOption(kTimeLimitOption, effort.time_limit_s), numberOption(kWorkOption, effort.work),
            numberOption(kMemoryOption, effort.memory_mb)};
}

std::vector<Option> outputOptions(PlanArguments& arguments) {
    return {jsonOption("plan", arguments.json),
            {.name = "--sheet",
             .target = &arguments.drawings.sheet,
             .meaning = "write the bench sheet: one page (HTML) to print or to open on a phone",
             .type = "FILE"},
            {.name = "--svg",
             .target = &arguments.drawings.svg,
             .meaning = "write every drawing of the sheet into this folder, made if need be",
             .type = "DIR"},
            {.name = "--glb",
             .target = &arguments.drawings.glb,
             .meaning = "write the best order as an animated 3-D file (glTF 2.0 binary)",
             .type = "FILE"},
            {.name = "--export-constraints",
             .target = &arguments.constraints,
             .meaning = "write the order problem as JSON, for other solvers",
             .type = "FILE"}};
}

std::vector<Option> planOptions(PlanArguments& arguments) {
    std::vector<Option> options = jobOptions(arguments.job);
    append(options, madeOptions(arguments.job));
    append(options, effortOptions(arguments.effort));
    append(options, outputOptions(arguments));
    append(options, {{.name = "--verify",
                      .target = &arguments.verify,
                      .meaning = "replay every plan with an independent collision check"},
                     {.name = "--robust",
                      .target = &arguments.effort.robust,
                      .meaning = "only orders whose folds are all shown to hold over the shop's tolerances; undecided "
                                 "when none is but some go as drawn"},
                     {.name = "--no-remedies",
                      .target = &arguments.no_remedies,
                      .meaning = "when no order works, or only a tight one: do not look for what would lift it"}});
    return options;
}

Issues writeConstraints(const std::string& path, const Inputs& inputs, const PlanReport& report,
                        const std::vector<std::string>& files) {
    std::vector<BrakeConstraints> brakes;
    for (const BrakeReport& of : report.brakes) {
        const BrakeInSetup& brake = of.result.brake;
        brakes.push_back({brake->name, constraintsOn(inputs.part, inputs.shop, brake, inputs.formed)});
    }
    return writeFile(path, constraintsJson(inputs.part, brakes), files);
}

/// Files first: when one cannot be written, no text claims that all went well.
Issues writeAll(const PlanArguments& arguments, const Inputs& inputs, const PlanReport& report) {
    const std::vector<std::string> files = inputFiles(arguments.job.part, arguments.job.shop);
    Issues issues;
    if (arguments.constraints) issues = writeConstraints(*arguments.constraints, inputs, report, files);
    if (issues.empty()) issues = writeSheet(arguments.drawings, files, report, materialOf(inputs.part));
    if (!issues.empty()) return issues;
    return writeAnswer(
        arguments.json, files, [&] { return planJson(report); }, [&] { return planText(report); });
}

int runPlan(const PlanArguments& arguments) {
    const Result<Inputs> read = readInputs(arguments.job);
    if (!read) return complain(read.issues());
    const Inputs& inputs = read.value();
    const std::string title =
        inputs.brakes.size() == 1 ? inputs.shop.brakes[inputs.brakes.front()].name : std::string("planning");
    PlanReport report = planPart(arguments.job.part, arguments.effort, !arguments.no_remedies, title, inputs);
    if (arguments.verify) replayPlans(report, static_cast<int>(arguments.effort.threads));
    const Issues issues = writeAll(arguments, inputs, report);
    return issues.empty() ? exitCode(report.verdict) : complain(issues);
}

}  // namespace

Command planCommand() {
    return makeCommand("plan", "Rank the orders of folds that work, with bars or punches, holds and clearances.",
                       std::string(kPlanHelp) + kVerdictExitCodes, planOptions, runPlan);
}

}  // namespace tinwright::app
