// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/own_orders.h"

#include <tinwright/base/words.h>

namespace tinwright::app {
namespace {

BrakeReport reportOf(const BrakeTry& tried) {
    BrakeReport report;
    report.brake = tried.brake;
    report.result.brake = tried.result.brake;
    report.result.verdict = tried.result.verdict;
    report.result.plans = {tried.result.plan};
    report.result.spoilt_anyway = tried.result.spoilt_anyway;
    report.result.forced_all_known = false;  // nobody looked
    return report;
}

std::vector<std::string> stillFlat(const Inputs& inputs) {
    BendMask formed = inputs.formed;
    for (const std::vector<BendId>& stroke : inputs.order) formed |= maskOf(stroke);
    std::vector<std::string> names;
    for (const BendId bend : bendsIn(allFormed(inputs.part) & ~formed)) names.push_back(inputs.part.bend(bend).name);
    return names;
}

}  // namespace

PlanReport ownOrders(const Inputs& inputs, const TryReport& tried) {
    PlanReport report{inputs.part, inputs.shop, inputs.formed, Verdict::kUndecided, {}, inputs.warnings, {}};
    report.pins = inputs.pins;
    report.source = OrderSource::kOwn;
    for (const BrakeTry& on_brake : tried.brakes) {
        if (on_brake.result.plan.folds.size() == inputs.order.size()) report.brakes.push_back(reportOf(on_brake));
    }
    if (const std::vector<std::string> flat = stillFlat(inputs); !flat.empty())
        report.warnings.push_back("still flat after the last fold: " + listed(flat));
    report.verdict = overallVerdict(report);
    addFindings(report, inputs.sheet());
    return report;
}

}  // namespace tinwright::app
