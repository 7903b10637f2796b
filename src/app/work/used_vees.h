// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include <tinwright/sequence/plan/planner.h>

#include "files/inputs.h"

namespace tinwright::app {

/// Puts a press brake into the V that a result is told for, so that everything that follows speaks of that one. Other
/// brakes stay as they are.
void useVee(Shop& shop, std::size_t brake, const std::optional<Vee>& vee);

/// Puts a press brake into the V in which the part goes as drawn, else into the usual one.
void useVeeAsDrawn(const Part& part, Shop& shop, std::size_t brake, PlanOptions options);

/// Puts every press brake asked about into the V that suits the part's thickness best.
void useUsualVees(Inputs& inputs);

}  // namespace tinwright::app
