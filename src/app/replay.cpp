// SPDX-License-Identifier: GPL-3.0-or-later
#include "replay.h"

#include <spdlog/spdlog.h>

#ifdef TINWRIGHT_HAS_VERIFIER
#include <tinwright/verify/verify.h>
#endif

namespace tinwright::app {

#ifdef TINWRIGHT_HAS_VERIFIER
namespace {

PlanCheck replay(const PlanReport& report, const LeafBrake& brake, const Plan& plan) {
    PlanCheck check{true, {}};
    for (const Finding& finding : verifyPlan(report.part, report.shop, brake, plan, report.formed)) {
        const std::string where = finding.fold > 0 ? "fold " + std::to_string(finding.fold) + ": " : "";
        check.findings.push_back(where + finding.words);
    }
    spdlog::info("{}: replayed plan {}, {} findings", brake.name, plan.rank, check.findings.size());
    return check;
}

/// A finding means that planner and verifier disagree; then nothing this brake's plans say is taken on trust.
void replayBrake(const PlanReport& report, BrakeReport& brake) {
    for (const Plan& plan : brake.result.plans) {
        brake.checks.push_back(replay(report, report.shop.brakes[brake.brake], plan));
        if (brake.checks.back().findings.empty()) continue;
        spdlog::error("{}: plan {} FAILED its independent replay", brake.result.brake, plan.rank);
        if (brake.result.verdict == Verdict::kFeasible) brake.result.verdict = Verdict::kUndecided;
    }
}

}  // namespace

void replayPlans(PlanReport& report) {
    for (BrakeReport& brake : report.brakes) replayBrake(report, brake);
    report.verdict = overallVerdict(report.brakes);
}
#else
void replayPlans(PlanReport& report) {
    const char* kWords =
        "--verify: this build of tinwright has no verifier (it was built with TINWRIGHT_VERIFY off); "
        "the plans were not replayed";
    spdlog::warn(kWords);
    report.warnings.emplace_back(kWords);
}
#endif

}  // namespace tinwright::app
