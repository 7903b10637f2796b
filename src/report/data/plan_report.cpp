// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/report/data/plan_report.h>

#include <algorithm>

namespace tinwright {

namespace {

template <class Brakes>
Verdict best(const Brakes& brakes) {
    Verdict best = Verdict::kInfeasible;
    for (const auto& brake : brakes) {
        if (rankOf(brake.result.verdict) > rankOf(best)) best = brake.result.verdict;
    }
    return best;
}

}  // namespace

FoldContext contextOf(const PlanReport& report, const BrakeReport& brake) {
    return {report.part, report.shop, brake.result.brake, brake.remedies ? &brake.remedies->found.list : nullptr};
}

Verdict overallVerdict(const std::vector<BrakeReport>& brakes) { return best(brakes); }
Verdict overallVerdict(const std::vector<BrakeTry>& brakes) { return best(brakes); }

Verdict overallVerdict(const PlanReport& report) {
    const Verdict single = overallVerdict(report.brakes);
    if (goes(single) || !report.split) return single;
    const bool has_failed = report.split_check && !report.split_check->findings.empty();
    return has_failed ? Verdict::kUndecided : report.split->verdict();
}

bool goesOverTwo(const PlanReport& report) {
    return !goes(overallVerdict(report.brakes)) && goes(overallVerdict(report));
}

}  // namespace tinwright
