// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/report/data/plan_report.h>

#include "data/json_values.h"

namespace tinwright::report {

/// "length", "leaf-angle", "clamp-depth", ...: as src/report/PLAN_FORMAT.md lists them.
[[nodiscard]] const char* nameOf(MachineFigure figure);
/// What a machine would need: one sentence for each brake of the shop that it would be like, then what holds for any.
/// Empty: nobody looked.
[[nodiscard]] std::vector<std::string> needsLines(const PlanReport& report);
/// null: nobody looked.
[[nodiscard]] Json needsJson(const BrakeReport& brake);

}  // namespace tinwright::report
