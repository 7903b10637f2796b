// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/report/plan_report.h>

#include "inputs.h"

namespace tinwright::app {

/// Plans on every brake asked about. Brakes share nothing, so the reports do not depend on how many threads there are.
[[nodiscard]] std::vector<BrakeReport> planBrakes(const CommandLine& line, const Inputs& inputs, const std::string& title);

/// What a machine would need, brake by brake, when the part goes on none of them.
void addNeeds(const CommandLine& line, const Inputs& inputs, PlanReport& report);

}  // namespace tinwright::app
