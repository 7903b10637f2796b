// SPDX-License-Identifier: GPL-3.0-or-later
#include "commands.h"

#include <spdlog/spdlog.h>

#include <tinwright/report/plan_json.h>
#include <tinwright/report/text.h>
#include <tinwright/sequence/planner.h>

#include "complain.h"
#include "exit_code.h"
#include "output_file.h"
#include "progress.h"
#include "replay.h"

namespace tinwright::app {
namespace {

BrakeReport planOne(const CommandLine& line, const Inputs& inputs, std::size_t brake) {
    const std::string& name = inputs.shop.brakes[brake].name;
    Progress progress(name);
    PlanOptions options;
    options.plans = static_cast<std::size_t>(line.plans);
    options.threads = static_cast<int>(line.threads);
    options.time_limit_s = line.time_limit_s;
    options.formed = inputs.formed;
    options.progress = [&progress](std::uint64_t states) { progress.show(states); };
    BrakeReport report{brake, planOnBrake(inputs.part, inputs.shop, brake, options), {}};
    spdlog::info("{}: {}, {} plans", name, toText(report.result.verdict), report.result.plans.size());
    return report;
}

/// The file first: when it cannot be written, no text claims that all went well.
Issues writeAll(const CommandLine& line, const PlanReport& report) {
    if (line.json && *line.json == "-") return writeStandardOutput(planJson(report));
    if (line.json) {
        Issues issues = writeFile(*line.json, planJson(report), {line.part_path, line.shop_path});
        if (!issues.empty()) return issues;
    }
    return writeStandardOutput(planText(report));
}

}  // namespace

int runPlan(const CommandLine& line, const Inputs& inputs) {
    PlanReport report{inputs.part, inputs.shop, inputs.formed, Verdict::kUndecided, {}, inputs.warnings};
    for (const std::size_t brake : inputs.brakes) report.brakes.push_back(planOne(line, inputs, brake));
    report.verdict = overallVerdict(report.brakes);
    if (line.verify) replayPlans(report);
    const Issues issues = writeAll(line, report);
    return issues.empty() ? exitCode(report.verdict) : complain(issues);
}

}  // namespace tinwright::app
