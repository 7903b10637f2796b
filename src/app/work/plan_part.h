// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include <tinwright/report/data/plan_report.h>

#include "files/inputs.h"
#include "options/choices.h"

namespace tinwright::app {

/// Plans a part on every brake asked about, with what would lift a no (when `remedies`) and what the metal does. The
/// report refers to `inputs`. With pins nothing is looked for that would lift a no: whether it goes without them is
/// told. `title`: what is said while it searches. `picked`: rank of the order to be shown, of which there may be fewer;
/// 0: the best.
[[nodiscard]] PlanReport planPart(const PartChoice& part, const EffortChoice& effort, bool remedies,
                                  const std::string& title, const Inputs& inputs, std::size_t picked = 0);

}  // namespace tinwright::app
