// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/report/data/plan_report.h>

#include "files/inputs.h"
#include "options/choices.h"

namespace tinwright::app {

/// Looks for what would lift it where no order works, or the best is tight or its cover poor. When the part goes on
/// some brake, that is all that is told for the others.
void addRemedies(const PartChoice& part, const EffortChoice& effort, const Inputs& inputs, PlanReport& report);

}  // namespace tinwright::app
