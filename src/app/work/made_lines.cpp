// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/made_lines.h"

#include <fmt/format.h>

#include <tinwright/sequence/plan/planner.h>

#include "console/log.h"
#include "work/for_each.h"

namespace tinwright::app {
namespace {

std::vector<TriedLine> linesOf(const Inputs& inputs) {
    std::vector<TriedLine> lines;
    if (!inputs.made) return lines;
    const MadeReport& made = *inputs.made;
    for (LineMove& move : linesToMove(made.drawn, inputs.part, made.changes, inputs.formed, made.inside_radius_mm))
        lines.push_back({std::move(move), Verdict::kInfeasible, {}, {}});
    return lines;
}

/// `ask` gives verdict and order on one brake.
template <class Ask>
void tryOnBrakes(const Inputs& inputs, TriedLine& line, const Ask& ask) {
    for (const std::size_t brake : inputs.brakes) {
        const auto [verdict, order] = ask(line.move.part, brake);
        if (rankOf(verdict) <= rankOf(line.verdict)) continue;
        line.verdict = verdict;
        if (!goes(verdict)) continue;
        line.brake = inputs.shop.brakes[brake].name;
        line.order = order;
        if (verdict == Verdict::kFeasible) return;
    }
}

using Answer = std::pair<Verdict, std::vector<std::vector<BendId>>>;

}  // namespace

std::vector<TriedLine> plannedLines(const EffortChoice& effort, const Inputs& inputs) {
    std::vector<TriedLine> lines = linesOf(inputs);
    PlanOptions options;
    options.plans = 1;
    options.time_limit_s = effort.time_limit_s;
    options.max_states = static_cast<std::uint64_t>(effort.work);
    options.max_bytes = static_cast<std::uint64_t>(effort.memory_mb) << 20;
    options.explain = false;
    options.tell_reasons = false;
    options.verdict_only = true;
    options.formed = inputs.formed;
    options.robust = effort.robust;
    options.material = inputs.sheet();
    options.pins = inputs.pins;
    forEach(lines.size(), static_cast<int>(effort.threads), [&](std::size_t i) {
        tryOnBrakes(inputs, lines[i], [&](const Part& part, std::size_t brake) {
            const BrakeResult result = planOnBrake(part, inputs.shop, brake, options);
            Answer answer{result.verdict, {}};
            if (result.plans.empty()) return answer;
            for (const FoldStep& fold : result.plans.front().folds) answer.second.push_back(fold.bends());
            return answer;
        });
    });
    logInfo(fmt::format("{} lines of bends moved and planned", lines.size()));
    return lines;
}

std::vector<TriedLine> triedLines(const Inputs& inputs) {
    std::vector<TriedLine> lines = linesOf(inputs);
    for (TriedLine& line : lines) {
        tryOnBrakes(inputs, line, [&](const Part& part, std::size_t brake) {
            return Answer{
                tryOrder(part, inputs.shop, brake, inputs.order, inputs.formed, inputs.pins, inputs.sheet()).verdict,
                inputs.order};
        });
    }
    return lines;
}

}  // namespace tinwright::app
