// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/plan_part.h"

#include "work/made_lines.h"
#include "work/plan_brakes.h"
#include "work/remedies.h"

namespace tinwright::app {

PlanReport planPart(const PartChoice& part, const EffortChoice& effort, bool remedies, const std::string& title,
                    const Inputs& inputs, std::size_t picked) {
    PlanReport report{inputs.part, inputs.shop, inputs.formed, Verdict::kUndecided, {}, inputs.warnings, {}};
    report.pins = inputs.pins;
    report.brakes = planBrakes(effort, inputs, title);
    report.made = inputs.made;
    if (report.made && remedies) report.made->lines = plannedLines(effort, inputs);
    if (picked > 0) {
        report.source = OrderSource::kPicked;
        for (BrakeReport& brake : report.brakes) brake.shown = picked - 1;
    }
    remedies = remedies && !inputs.pins.any();
    if (remedies) addRemedies(part, effort, inputs, report);
    addSplit(effort, inputs, report);  // the verdict hangs on it
    if (remedies) addNeeds(effort, inputs, report);
    report.verdict = overallVerdict(report);
    addFindings(report, inputs.sheet());
    return report;
}

}  // namespace tinwright::app
