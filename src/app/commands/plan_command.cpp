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
#include "work/plan_brakes.h"
#include "work/remedies.h"
#include "work/replay.h"

namespace tinwright::app {
namespace {

Issues writeConstraints(const CommandLine& line, const Inputs& inputs, const PlanReport& report) {
    std::vector<BrakeConstraints> brakes;
    for (const BrakeReport& of : report.brakes) {
        const BrakeInSetup& brake = of.result.brake;
        brakes.push_back({brake->name, constraintsOn(inputs.part, inputs.shop, brake, inputs.formed)});
    }
    return writeFile(*line.constraints, constraintsJson(inputs.part, brakes), inputFiles(line));
}

/// Files first: when one cannot be written, no text claims that all went well.
Issues writeAll(const CommandLine& line, const PlanReport& report, const std::optional<Material>& material) {
    Issues drawn = writeSheet(line, report, material);
    if (!drawn.empty()) return drawn;
    if (line.json && *line.json == "-") return writeStandardOutput(planJson(report));
    if (line.json) {
        Issues issues = writeFile(*line.json, planJson(report), inputFiles(line));
        if (!issues.empty()) return issues;
    }
    return writeStandardOutput(planText(report));
}

}  // namespace

int runPlan(const CommandLine& line, const Inputs& inputs) {
    PlanReport report{inputs.part, inputs.shop, inputs.formed, Verdict::kUndecided, {}, inputs.warnings, {}};
    report.brakes = planBrakes(line, inputs,
                               inputs.brakes.size() == 1 ? inputs.shop.brakes[inputs.brakes.front()].name : "planning");
    report.verdict = overallVerdict(report.brakes);
    if (!line.no_remedies) {
        addRemedies(line, inputs, report);
        addSplit(line, inputs, report);
        addNeeds(line, inputs, report);
    }
    const std::optional<Material> material = materialOf(inputs.part);
    addFindings(report, material ? &*material : nullptr);
    if (line.verify) replayPlans(report, static_cast<int>(line.threads));
    if (line.constraints) {
        const Issues issues = writeConstraints(line, inputs, report);
        if (!issues.empty()) return complain(issues);
    }
    const Issues issues = writeAll(line, report, material);
    return issues.empty() ? exitCode(report.verdict) : complain(issues);
}

}  // namespace tinwright::app
