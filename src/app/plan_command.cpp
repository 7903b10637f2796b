// SPDX-License-Identifier: GPL-3.0-or-later
#include "commands.h"

#include <algorithm>
#include <functional>
#include <mutex>
#include <optional>

#include <spdlog/spdlog.h>

#include <tinwright/report/constraints_json.h>
#include <tinwright/report/plan_json.h>
#include <tinwright/report/text.h>
#include <tinwright/sequence/planner.h>

#include "complain.h"
#include "exit_code.h"
#include "for_each.h"
#include "material_of.h"
#include "output_file.h"
#include "part_file.h"
#include "progress.h"
#include "remedies.h"
#include "replay.h"
#include "sheet_output.h"
#include "used_vees.h"

namespace tinwright::app {
namespace {

using OnProgress = std::function<void(const SearchProgress&)>;

BrakeReport planOne(const CommandLine& line, const Inputs& inputs, std::size_t brake, OnProgress progress) {
    PlanOptions options;
    options.plans = static_cast<std::size_t>(line.plans);
    options.time_limit_s = line.time_limit_s;
    options.max_states = static_cast<std::uint64_t>(line.work);
    options.max_bytes = static_cast<std::uint64_t>(line.memory_mb) << 20;
    options.formed = inputs.formed;
    options.robust = line.robust;
    options.progress = std::move(progress);
    return {brake, planOnBrake(inputs.part, inputs.shop, brake, options), {}, {}, {}, {}};
}

/// Brakes share nothing, so the reports do not depend on how many threads there are.
std::vector<BrakeReport> planAll(const CommandLine& line, const Inputs& inputs) {
    std::vector<std::optional<BrakeReport>> found(inputs.brakes.size());
    std::mutex showing;
    Progress progress(inputs.brakes.size() == 1 ? inputs.shop.brakes[inputs.brakes.front()].name : "planning");
    forEach(found.size(), static_cast<int>(line.threads), [&](std::size_t i) {
        found[i] = planOne(line, inputs, inputs.brakes[i], [&](const SearchProgress& search) {
            const std::lock_guard lock(showing);
            progress.show(search);
        });
    });
    std::vector<BrakeReport> reports;
    for (std::optional<BrakeReport>& report : found) {
        spdlog::info("{}: {}, {} plans", report->result.brake, toText(report->result.verdict), report->result.plans.size());
        reports.push_back(std::move(*report));
    }
    return reports;
}

Issues writeConstraints(const CommandLine& line, const Inputs& inputs) {
    std::vector<BrakeConstraints> brakes;
    for (const std::size_t brake : inputs.brakes) {
        brakes.push_back({inputs.shop.brakes[brake].name, constraintsOn(inputs.part, inputs.shop, brake, inputs.formed)});
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

int runPlan(const CommandLine& line, const Inputs& read) {
    Inputs inputs = read;
    PlanReport report{inputs.part, inputs.shop, inputs.formed, Verdict::kUndecided, {}, inputs.warnings, {}};
    report.brakes = planAll(line, read);
    for (const BrakeReport& brake : report.brakes) useVee(inputs, brake.brake, brake.result.vee);
    report.verdict = overallVerdict(report.brakes);
    if (!line.no_remedies) addRemedies(line, inputs, report);
    const std::optional<Material> material = materialOf(inputs.part);
    addFindings(report, material ? &*material : nullptr);
    if (line.verify) replayPlans(report, static_cast<int>(line.threads));
    if (line.constraints) {
        const Issues issues = writeConstraints(line, inputs);
        if (!issues.empty()) return complain(issues);
    }
    const Issues issues = writeAll(line, report, material);
    return issues.empty() ? exitCode(report.verdict) : complain(issues);
}

}  // namespace tinwright::app
