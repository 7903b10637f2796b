// SPDX-License-Identifier: GPL-3.0-or-later
#include "commands/commands.h"

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/forming/checks/check.h>
#include <tinwright/report/text/text.h>
#include <tinwright/sequence/plan/planner.h>

#include "console/complain.h"
#include "console/exit_code.h"
#include "files/inputs.h"
#include "files/material_of.h"
#include "files/output_file.h"
#include "work/made_lines.h"

namespace tinwright::app {
namespace {

constexpr const char* kTryHelp =
    "Examples:\n"
    "  tinwright try part.json --shop shop.json --order left,right,front,back\n"
    "      four strokes\n"
    "  tinwright try part.json --shop shop.json --brake finger --order tab-a+tab-b,left,right\n"
    "      tab-a and tab-b in one stroke\n"
    "  tinwright try part.json --shop shop.json --formed left --order right\n"
    "      go on with a part that has one bend already\n"
    "  tinwright try part.json --shop shop.json --made left=35.2 --order right\n"
    "      the same when that one came out at 35.2 mm outside\n";

struct TryArguments {
    JobChoice job;
    std::string order;  ///< "a,b+c,d"
};

std::vector<Option> tryOptions(TryArguments& arguments) {
    std::vector<Option> options = jobOptions(arguments.job);
    append(options, madeOptions(arguments.job));
    options.push_back({.name = "--order",
                       .target = &arguments.order,
                       .meaning = "the strokes in order; bends made in one stroke are joined by +",
                       .type = "a,b+c,...",
                       .required = true});
    return options;
}

/// Faults and warnings of one brake; the rest is for `check`.
void warnOfMetal(const Inputs& inputs, const BrakeInSetup& brake, const Material* material,
                 std::vector<std::string>& warnings) {
    const PartOnBrake part = partOnBrake(inputs.part, inputs.shop, brake);
    for (const Finding& finding : brakeFindings(part, material, inputs.shop, brake)) {
        if (finding.severity != Severity::kNote)
            warnings.push_back(finding.brake + ", " + finding.feature + ": " + finding.words);
    }
}

int runTry(const TryArguments& arguments) {
    const Result<Inputs> read = readInputs(arguments.job, &arguments.order);
    if (!read) return complain(read.issues());
    const Inputs& inputs = read.value();
    TryReport report{inputs.part, inputs.shop, inputs.formed, inputs.order, {}, inputs.warnings};
    report.made = inputs.made;
    if (report.made) report.made->lines = triedLines(inputs);
    const std::optional<Material> material = materialOf(inputs.part);
    for (const std::size_t brake : inputs.brakes) {
        report.brakes.push_back({brake, tryOrder(inputs.part, inputs.shop, brake, inputs.order, inputs.formed)});
        warnOfMetal(inputs, report.brakes.back().result.brake, material ? &*material : nullptr, report.warnings);
    }
    const Issues issues = writeStandardOutput(tryText(report));
    return issues.empty() ? exitCode(overallVerdict(report.brakes)) : complain(issues);
}

}  // namespace

Command tryCommand() {
    return makeCommand("try", "Simulate one order and say, fold by fold, what clears and what hits.",
                       std::string(kTryHelp) + kVerdictExitCodes, tryOptions, runTry);
}

}  // namespace tinwright::app
