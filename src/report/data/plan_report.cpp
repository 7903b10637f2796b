// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/report/data/plan_report.h>

#include <algorithm>

namespace tinwright {

namespace {

template <class Brakes>
Verdict best(const Brakes& brakes) {
    for (const Verdict verdict : {Verdict::kFeasible, Verdict::kUndecided}) {
        const auto is = [verdict](const auto& brake) { return brake.result.verdict == verdict; };
        if (std::any_of(brakes.begin(), brakes.end(), is)) return verdict;
    }
    return Verdict::kInfeasible;
}

}  // namespace

FoldContext contextOf(const PlanReport& report, const BrakeReport& brake) {
    return {report.part, report.shop, brake.result.brake, brake.remedies ? &brake.remedies->found.list : nullptr};
}

Verdict overallVerdict(const std::vector<BrakeReport>& brakes) { return best(brakes); }
Verdict overallVerdict(const std::vector<BrakeTry>& brakes) { return best(brakes); }

Verdict overallVerdict(const PlanReport& report) {
    const Verdict single = overallVerdict(report.brakes);
    if (single == Verdict::kFeasible || !report.split) return single;
    const bool has_failed = report.split_check && !report.split_check->findings.empty();
    return has_failed ? Verdict::kUndecided : Verdict::kFeasible;
}

bool goesOverTwo(const PlanReport& report) {
    return overallVerdict(report.brakes) != Verdict::kFeasible && overallVerdict(report) == Verdict::kFeasible;
}

}  // namespace tinwright
