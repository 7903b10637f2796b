// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/replay.h"

#include <dlfcn.h>

#include <algorithm>
#include <filesystem>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>

#include "console/log.h"
#include "work/for_each.h"
#include "work/verifier_module.h"

namespace tinwright::app {
namespace {

namespace fs = std::filesystem;

/// The verifier's function; null when there is no module beside the program, or where it is installed. It stays loaded.
VerifyPlanFunction loadVerifier() {
    std::error_code error;
    const fs::path folder = fs::read_symlink("/proc/self/exe", error).parent_path();
    if (error) return nullptr;
    for (const fs::path& file : {folder / kVerifierFile, folder / TINWRIGHT_MODULE_FOLDER / kVerifierFile}) {
        if (!fs::exists(file, error)) continue;
        void* const module = dlopen(file.c_str(), RTLD_NOW | RTLD_LOCAL);
        if (module != nullptr) return reinterpret_cast<VerifyPlanFunction>(dlsym(module, kVerifyPlanSymbol));
        logWarning(fmt::format("the verifier cannot be loaded: {}", dlerror()));
    }
    return nullptr;
}

PlanCheck replay(VerifyPlanFunction verify, const PlanReport& report, const std::vector<BrakeInSetup>& brakes,
                 const Plan& plan) {
    PlanCheck check{true, {}};
    std::vector<ReplayFinding> findings;
    verify({&report.part, &report.shop, &brakes, &plan, report.formed}, findings);
    for (const ReplayFinding& finding : findings) {
        const std::string where = finding.fold > 0 ? "fold " + std::to_string(finding.fold) + ": " : "";
        check.findings.push_back(where + finding.words);
    }
    return check;
}

/// A finding means that planner and verifier disagree; then nothing this brake's plans say is taken on trust.
void takeChecks(BrakeReport& brake) {
    for (std::size_t i = 0; i < brake.checks.size(); ++i) {
        const int rank = brake.result.plans[i].rank;
        logInfo(fmt::format("{}: replayed plan {}, {} findings", brake.result.brake->name, rank,
                            brake.checks[i].findings.size()));
        if (brake.checks[i].findings.empty()) continue;
        logError(fmt::format("{}: plan {} FAILED its independent replay", brake.result.brake->name, rank));
        if (goes(brake.result.verdict)) brake.result.verdict = Verdict::kUndecided;
    }
}

void replaySplit(VerifyPlanFunction verify, PlanReport& report) {
    std::vector<BrakeInSetup> brakes;
    for (const std::size_t brake : report.split->brake_of_fold) brakes.push_back(report.split->setupOf(brake));
    report.split_check = replay(verify, report, brakes, report.split->plan);
    if (!report.split_check->findings.empty()) logError("the plan over two brakes FAILED its independent replay");
}

}  // namespace

void replayPlans(PlanReport& report, int threads) {
    const VerifyPlanFunction verify = loadVerifier();
    if (verify == nullptr) {
        const char* kWords =
            "--verify: there is no verifier beside this program (it was built with TINWRIGHT_VERIFY off); the plans "
            "were not replayed";
        logWarning(kWords);
        report.warnings.emplace_back(kWords);
        return;
    }
    std::vector<std::pair<BrakeReport*, std::size_t>> plans;
    for (BrakeReport& brake : report.brakes) {
        brake.checks.resize(brake.result.plans.size());
        for (std::size_t i = 0; i < brake.result.plans.size(); ++i) plans.emplace_back(&brake, i);
    }
    forEach(plans.size(), threads, [&](std::size_t k) {
        const auto [brake, i] = plans[k];
        const Plan& plan = brake->result.plans[i];
        brake->checks[i] =
            replay(verify, report, std::vector(std::max<std::size_t>(plan.folds.size(), 1), brake->result.brake), plan);
    });
    for (BrakeReport& brake : report.brakes) takeChecks(brake);
    if (report.split) replaySplit(verify, report);
    report.verdict = overallVerdict(report);
}

}  // namespace tinwright::app
