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
#include "files/inputs.h"
#include "files/output_file.h"
#include "files/part_file.h"

namespace tinwright::app {
namespace {

constexpr const char* kCheckHelp =
    "Examples:\n"
    "  tinwright check part.json\n"
    "      whatever the brake; webs beside windows for a leaf face of 25 mm\n"
    "  tinwright check part.json --shop shop.json --brake finger\n"
    "      with the load, the leaf and the nose of that brake\n"
    "  tinwright check part.json --json findings.json\n"
    "      for another program\n"
    "  tinwright explain web.folds\n"
    "      formula and source of a finding\n"
    "Exit codes: 0 no fault (there may be warnings), 1 at least one fault or overload, 2 bad input or usage.\n";

struct CheckArguments {
    JobChoice job;                    ///< with no shop: whatever the brake
    std::optional<std::string> json;  ///< file, or "-"
};

std::vector<Option> checkOptions(CheckArguments& arguments) {
    std::vector<Option> options = partOptions(arguments.job.part);
    append(options, optionalShopOptions(arguments.job.shop, "the shop file (JSON): check its brakes too"));
    options.push_back(jsonOption("findings", arguments.json));
    return options;
}

/// The usual one, or the first in which less is spoilt whatever the order.
BrakeInSetup bestSetup(const Part& part, const Shop& shop, std::size_t brake, const Material* material) {
    const std::vector<BrakeInSetup> setups = setupsFor(part, shop.brakes[brake]);
    std::vector<Spoils> spoilt;
    for (const BrakeInSetup& setup : setups) {
        Spoils all;
        for (const Finding& finding :
             brakeFindings(partOnBrake(part, shop, setup), material, shop, setup, Cures::kLeave))
            all += spoilsOf(finding);
        spoilt.push_back(all);
    }
    return setups[static_cast<std::size_t>(std::min_element(spoilt.begin(), spoilt.end()) - spoilt.begin())];
}

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
        const BrakeInSetup brake = bestSetup(part, inputs.shop, index, material);
        report.brakes.push_back(brake->name);
        report.kinds.push_back(kindOf(*brake));
        add(brakeFindings(partOnBrake(part, inputs.shop, brake), material, inputs.shop, brake));
    }
    if (inputs.shop.cutting) add(cutPlan(part, *inputs.shop.cutting).findings);
    if (inputs.brakes.empty()) add(webFindings(part, material));
    sortFindings(report.findings);
    return report;
}

int runCheck(const CheckArguments& arguments) {
    const Result<Inputs> inputs = readInputs(arguments.job);
    const Result<Materials> materials = readShippedMaterials();
    Issues issues;
    if (!inputs) append(issues, inputs.issues());
    if (!materials) append(issues, materials.issues());
    if (!issues.empty()) return complain(issues);
    const CheckReport report = reportOf(inputs.value(), materials.value().find(inputs.value().part.material));
    const Issues written = writeAnswer(
        arguments.json, inputFiles(arguments.job.part, arguments.job.shop), [&] { return checkJson(report); },
        [&] { return checkText(report); });
    if (!written.empty()) return complain(written);
    const bool fault = std::any_of(report.findings.begin(), report.findings.end(),
                                   [](const Finding& finding) { return finding.severity >= Severity::kFault; });
    return fault ? kInfeasibleExit : kFeasibleExit;
}

}  // namespace

Command checkCommand() {
    return makeCommand("check",
                       "What the metal does when the part is folded: faults, warnings and notes before any is cut.",
                       kCheckHelp, checkOptions, runCheck);
}

}  // namespace tinwright::app
