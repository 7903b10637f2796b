// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan_brakes.h"

#include <functional>
#include <mutex>
#include <optional>

#include <spdlog/spdlog.h>

#include <tinwright/sequence/planner.h>

#include "for_each.h"
#include "progress.h"

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
    BrakeReport report;
    report.brake = brake;
    report.result = planOnBrake(inputs.part, inputs.shop, brake, options);
    return report;
}

}  // namespace

std::vector<BrakeReport> planBrakes(const CommandLine& line, const Inputs& inputs, const std::string& title) {
    std::vector<BrakeReport> reports(inputs.brakes.size());
    std::mutex showing;
    Progress progress(title);
    forEach(reports.size(), static_cast<int>(line.threads), [&](std::size_t i) {
        reports[i] = planOne(line, inputs, inputs.brakes[i], [&](const SearchProgress& search) {
            const std::lock_guard lock(showing);
            progress.show(search);
        });
    });
    for (const BrakeReport& report : reports) spdlog::info("{}: {}, {} plans", report.result.brake, toText(report.result.verdict), report.result.plans.size());
    return reports;
}

void addNeeds(const CommandLine& line, const Inputs& inputs, PlanReport& report) {
    if (report.verdict != Verdict::kInfeasible) return;
    NeedsOptions options;
    options.formed = inputs.formed;
    options.max_work /= report.brakes.size();
    forEach(report.brakes.size(), static_cast<int>(line.threads), [&](std::size_t i) {
        report.brakes[i].needs = machineNeeds(inputs.part, inputs.shop, report.brakes[i].brake, options);
    });
}

}  // namespace tinwright::app
