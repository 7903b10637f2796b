// SPDX-License-Identifier: GPL-3.0-or-later
#include "replay.h"

#include <dlfcn.h>

#include <filesystem>

#include <spdlog/spdlog.h>

#include "verifier_module.h"

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
        spdlog::warn("the verifier cannot be loaded: {}", dlerror());
    }
    return nullptr;
}

PlanCheck replay(VerifyPlanFunction verify, const PlanReport& report, const LeafBrake& brake, const Plan& plan) {
    PlanCheck check{true, {}};
    std::vector<ReplayFinding> findings;
    verify({&report.part, &report.shop, &brake, &plan, report.formed}, findings);
    for (const ReplayFinding& finding : findings) {
        const std::string where = finding.fold > 0 ? "fold " + std::to_string(finding.fold) + ": " : "";
        check.findings.push_back(where + finding.words);
    }
    spdlog::info("{}: replayed plan {}, {} findings", brake.name, plan.rank, check.findings.size());
    return check;
}

/// A finding means that planner and verifier disagree; then nothing this brake's plans say is taken on trust.
void replayBrake(VerifyPlanFunction verify, const PlanReport& report, BrakeReport& brake) {
    for (const Plan& plan : brake.result.plans) {
        brake.checks.push_back(replay(verify, report, report.shop.brakes[brake.brake], plan));
        if (brake.checks.back().findings.empty()) continue;
        spdlog::error("{}: plan {} FAILED its independent replay", brake.result.brake, plan.rank);
        if (brake.result.verdict == Verdict::kFeasible) brake.result.verdict = Verdict::kUndecided;
    }
}

}  // namespace

void replayPlans(PlanReport& report) {
    const VerifyPlanFunction verify = loadVerifier();
    if (verify == nullptr) {
        const char* kWords = "--verify: there is no verifier beside this program (it was built with TINWRIGHT_VERIFY off); the plans were not replayed";
        spdlog::warn(kWords);
        report.warnings.emplace_back(kWords);
        return;
    }
    for (BrakeReport& brake : report.brakes) replayBrake(verify, report, brake);
    report.verdict = overallVerdict(report.brakes);
}

}  // namespace tinwright::app
