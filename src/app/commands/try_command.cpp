// SPDX-License-Identifier: GPL-3.0-or-later
#include "commands/commands.h"

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/forming/checks/check.h>
#include <tinwright/report/text/text.h>
#include <tinwright/sequence/plan/planner.h>

#include "console/complain.h"
#include "console/exit_code.h"
#include "files/material_of.h"
#include "files/output_file.h"

namespace tinwright::app {
namespace {

/// Faults and warnings of one brake; the rest is for `check`.
void warnOfMetal(const Inputs& inputs, const BrakeInSetup& brake, const Material* material,
                 std::vector<std::string>& warnings) {
    const PartOnBrake part = partOnBrake(inputs.part, inputs.shop, brake);
    for (const Finding& finding : brakeFindings(part, material, inputs.shop, brake)) {
        if (finding.severity != Severity::kNote)
            warnings.push_back(finding.brake + ", " + finding.feature + ": " + finding.words);
    }
}

}  // namespace

int runTry(const CommandLine&, const Inputs& inputs) {
    TryReport report{inputs.part, inputs.shop, inputs.formed, inputs.order, {}, inputs.warnings};
    const std::optional<Material> material = materialOf(inputs.part);
    for (const std::size_t brake : inputs.brakes) {
        report.brakes.push_back({brake, tryOrder(inputs.part, inputs.shop, brake, inputs.order, inputs.formed)});
        warnOfMetal(inputs, report.brakes.back().result.brake, material ? &*material : nullptr, report.warnings);
    }
    const Issues issues = writeStandardOutput(tryText(report));
    return issues.empty() ? exitCode(overallVerdict(report.brakes)) : complain(issues);
}

}  // namespace tinwright::app
