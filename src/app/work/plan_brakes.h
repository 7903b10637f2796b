// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/report/data/plan_report.h>

#include "files/inputs.h"

namespace tinwright::app {

/// Plans on every brake asked about. Brakes share nothing, so the reports do not depend on how many threads there are.
[[nodiscard]] std::vector<BrakeReport> planBrakes(const EffortChoice& effort, const Inputs& inputs,
                                                  const std::string& title);

/// When the part goes on none of them: orders over two brakes, of all pairs the quickest.
void addSplit(const EffortChoice& effort, const Inputs& inputs, PlanReport& report);

/// What a machine would need, brake by brake, when the part goes on none of them.
void addNeeds(const EffortChoice& effort, const Inputs& inputs, PlanReport& report);

}  // namespace tinwright::app
