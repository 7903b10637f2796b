// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include <tinwright/report/data/plan_report.h>

namespace tinwright {

/// The `format` tag of what planJson writes; src/report/PLAN_FORMAT.md describes every field.
inline constexpr const char* kPlanFormat = "tinwright-plan/1";

/// The plan as JSON, indented, with a line break at its end. The same report gives the same bytes. Lengths are
/// rounded to 0.001 mm, angles to 0.001°, shares to 0.0001; what is not finite is null.
[[nodiscard]] std::string planJson(const PlanReport& report);

}  // namespace tinwright
