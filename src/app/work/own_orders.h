// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/report/data/plan_report.h>

#include "files/inputs.h"

namespace tinwright::app {

/// A person's own order on the brakes on which all of it goes, to be drawn and written like a plan. The report refers
/// to `inputs`; without brakes the order goes nowhere.
[[nodiscard]] PlanReport ownOrders(const Inputs& inputs, const TryReport& tried);

}  // namespace tinwright::app
