// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/plan_brakes.h"

#include <algorithm>
#include <array>
#include <functional>
#include <mutex>
#include <optional>
#include <tuple>

#include <fmt/format.h>

#include <tinwright/sequence/plan/planner.h>

#include "console/log.h"
#include "console/progress.h"
#include "work/for_each.h"

namespace tinwright::app {
namespace {

using OnProgress = std::function<void(const SearchProgress&)>;

BrakeReport planOne(const EffortChoice& effort, const Inputs& inputs, std::size_t brake, OnProgress progress) {
    PlanOptions options;
    options.plans = static_cast<std::size_t>(effort.plans);
    options.time_limit_s = effort.time_limit_s;
    options.max_states = static_cast<std::uint64_t>(effort.work);
    options.max_bytes = static_cast<std::uint64_t>(effort.memory_mb) << 20;
    options.formed = inputs.formed;
    options.robust = effort.robust;
    options.material = inputs.sheet();
    options.pins = inputs.pins;
    options.progress = std::move(progress);
    BrakeReport report;
    report.brake = brake;
    report.result = planOnBrake(inputs.part, inputs.shop, brake, options);
    return report;
}

}  // namespace

std::vector<BrakeReport> planBrakes(const EffortChoice& effort, const Inputs& inputs, const std::string& title) {
    std::vector<BrakeReport> reports(inputs.brakes.size());
    std::mutex showing;
    Progress progress(title);
    forEach(reports.size(), static_cast<int>(effort.threads), [&](std::size_t i) {
        reports[i] = planOne(effort, inputs, inputs.brakes[i], [&](const SearchProgress& search) {
            const std::lock_guard lock(showing);
            progress.show(search);
        });
    });
    for (const BrakeReport& report : reports)
        logInfo(fmt::format("{}: {}, {} plans", report.result.brake->name, toText(report.result.verdict),
                            report.result.plans.size()));
    return reports;
}

void addSplit(const EffortChoice& effort, const Inputs& inputs, PlanReport& report) {
    if (goes(overallVerdict(report.brakes)) || effort.robust) return;
    std::vector<std::array<const BrakeReport*, 2>> pairs;
    for (std::size_t i = 0; i < report.brakes.size(); ++i) {
        for (std::size_t k = i + 1; k < report.brakes.size(); ++k)
            pairs.push_back({&report.brakes[i], &report.brakes[k]});
    }
    PlanOptions options;
    options.time_limit_s = effort.time_limit_s;
    options.max_states = static_cast<std::uint64_t>(effort.work) / std::max<std::size_t>(pairs.size(), 1);
    options.formed = inputs.formed;
    options.material = inputs.sheet();
    options.pins = inputs.pins;
    std::vector<std::optional<SplitPlan>> found(pairs.size());
    forEach(pairs.size(), static_cast<int>(effort.threads), [&](std::size_t i) {
        const auto& [a, b] = pairs[i];
        found[i] =
            planOnTwo(inputs.part, inputs.shop, {a->brake, b->brake}, {a->result.brake, b->result.brake}, options);
    });
    for (std::optional<SplitPlan>& split : found) {
        const auto key = [](const SplitPlan& of) {
            return std::tuple(of.plan.spoils + of.spoilt_anyway, of.plan.tight, of.plan.cost_ms);
        };
        if (split && (!report.split || key(*split) < key(*report.split))) report.split = std::move(split);
    }
    report.split_tried = !pairs.empty();
}

void addNeeds(const EffortChoice& effort, const Inputs& inputs, PlanReport& report) {
    if (overallVerdict(report.brakes) != Verdict::kInfeasible) return;
    NeedsOptions options;
    options.formed = inputs.formed;
    options.max_work /= report.brakes.size();
    options.material = inputs.sheet();
    forEach(report.brakes.size(), static_cast<int>(effort.threads), [&](std::size_t i) {
        report.brakes[i].needs = machineNeeds(inputs.part, inputs.shop, report.brakes[i].result.brake, options);
    });
}

}  // namespace tinwright::app
