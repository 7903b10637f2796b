// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/report/data/plan_report.h>

#include "data/json_values.h"

namespace tinwright::report {

/// `remedies` of a brake (PLAN_FORMAT.md); null when nobody looked.
[[nodiscard]] Json remediesJson(const PlanReport& report, const BrakeReport& brake);

}  // namespace tinwright::report
