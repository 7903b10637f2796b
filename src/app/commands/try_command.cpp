// SPDX-License-Identifier: GPL-3.0-or-later
#include "commands/commands.h"

#include <tinwright/report/text/text.h>
#include <tinwright/sequence/plan/planner.h>

#include "console/complain.h"
#include "console/exit_code.h"
#include "files/inputs.h"
#include "files/output_file.h"

namespace tinwright::app {
namespace {

constexpr const char* kTryHelp =
    "Examples:\n"
    "  tinwright try part.json --shop shop.json --order left,right,front,back\n"
    "      four strokes\n"
    "  tinwright try part.json --shop shop.json --brake finger --order tab-a+tab-b,left,right\n"
    "      tab-a and tab-b in one stroke\n"
    "  tinwright try part.json --shop shop.json --formed left --order right\n"
    "      go on with a part that has one bend already\n";

struct TryArguments {
    JobChoice job;
    std::string order;  ///< "a,b+c,d"
};

std::vector<Option> tryOptions(TryArguments& arguments) {
    std::vector<Option> options = jobOptions(arguments.job);
    options.push_back({.name = "--order",
                       .target = &arguments.order,
                       .meaning = "the strokes in order; bends made in one stroke are joined by +",
                       .type = "a,b+c,...",
                       .required = true});
    return options;
}

int runTry(const TryArguments& arguments) {
    const Result<Inputs> read = readInputs(arguments.job, &arguments.order);
    if (!read) return complain(read.issues());
    const Inputs& inputs = read.value();
    TryReport report{inputs.part, inputs.shop, inputs.formed, inputs.order, {}, inputs.warnings};
    for (const std::size_t brake : inputs.brakes) {
        report.brakes.push_back(
            {brake, tryOrder(inputs.part, inputs.shop, brake, inputs.order, inputs.formed, inputs.sheet()), {}, {}});
        addFindings(report, inputs.sheet(), report.brakes.back());
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
