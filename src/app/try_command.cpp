// SPDX-License-Identifier: GPL-3.0-or-later
#include "commands.h"

#include <tinwright/report/text.h>
#include <tinwright/sequence/planner.h>

#include "complain.h"
#include "exit_code.h"
#include "output_file.h"

namespace tinwright::app {

int runTry(const CommandLine&, const Inputs& inputs) {
    TryReport report{inputs.part, inputs.shop, inputs.formed, inputs.order, {}, inputs.warnings};
    for (const std::size_t brake : inputs.brakes) {
        report.brakes.push_back({brake, tryOrder(inputs.part, inputs.shop, brake, inputs.order, inputs.formed)});
    }
    const Issues issues = writeStandardOutput(tryText(report));
    return issues.empty() ? exitCode(overallVerdict(report.brakes)) : complain(issues);
}

}  // namespace tinwright::app
