// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/forming/checks/check.h>
#include <tinwright/forming/cutting/cut_plan.h>
#include <tinwright/forming/metal/vee_choice.h>
#include <tinwright/io/shop/materials_io.h>
#include <tinwright/report/data/check_report.h>

#include "commands/commands.h"
#include "console/complain.h"
#include "console/exit_code.h"
#include "files/output_file.h"
#include "files/part_file.h"

namespace tinwright::app {
namespace {

CheckReport reportOf(const Inputs& inputs, const Material* material) {
    const Part& part = inputs.part;
    CheckReport report{.part = part,
                       .shop = inputs.shop.name,
                       .brakes = {},
                       .kinds = {},
                       .findings = partFindings(part, material),
                       .warnings = part.warnings};
    const auto add = [&](const std::vector<Finding>& more) {
        report.findings.insert(report.findings.end(), more.begin(), more.end());
    };
    for (const std::size_t index : inputs.brakes) {
        const BrakeInSetup brake = setupsFor(part, inputs.shop.brakes[index]).front();  // the usual one
        report.brakes.push_back(brake->name);
        report.kinds.push_back(kindOf(*brake));
        add(brakeFindings(partOnBrake(part, inputs.shop, brake), material, inputs.shop, brake));
    }
    if (inputs.shop.cutting) add(cutPlan(part, *inputs.shop.cutting).findings);
    if (inputs.brakes.empty()) add(webFindings(part, material));
    sortFindings(report.findings);
    return report;
}

Issues writeAll(const CommandLine& line, const CheckReport& report) {
    if (line.json && *line.json == "-") return writeStandardOutput(checkJson(report));
    if (line.json) {
        Issues issues = writeFile(*line.json, checkJson(report), inputFiles(line));
        if (!issues.empty()) return issues;
    }
    return writeStandardOutput(checkText(report));
}

}  // namespace

int runCheck(const CommandLine& line) {
    const Result<Inputs> inputs = readInputs(line);
    const Result<Materials> materials = readShippedMaterials();
    Issues issues;
    if (!inputs) append(issues, inputs.issues());
    if (!materials) append(issues, materials.issues());
    if (!issues.empty()) return complain(issues);
    const CheckReport report = reportOf(inputs.value(), materials.value().find(inputs.value().part.material));
    const Issues written = writeAll(line, report);
    if (!written.empty()) return complain(written);
    const bool fault = std::any_of(report.findings.begin(), report.findings.end(),
                                   [](const Finding& finding) { return finding.severity == Severity::kFault; });
    return fault ? kInfeasibleExit : kFeasibleExit;
}

}  // namespace tinwright::app
