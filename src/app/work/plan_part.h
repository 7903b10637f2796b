// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include <tinwright/report/data/plan_report.h>

#include "files/inputs.h"
#include "options/choices.h"

namespace tinwright::app {

/// Plans a part on every brake asked about, with what would lift a no (when `remedies`) and what the metal does. The
/// report refers to `inputs`. `title`: what is said while it searches.
[[nodiscard]] PlanReport planPart(const PartChoice& part, const EffortChoice& effort, bool remedies,
                                  const std::string& title, const Inputs& inputs);

}  // namespace tinwright::app
