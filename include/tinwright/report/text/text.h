// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include <tinwright/report/data/columns.h>
#include <tinwright/report/data/plan_report.h>

namespace tinwright {

/// The plan as a person at the brake reads it: verdict first, then for each brake the best order fold by fold,
/// the next best in short, or why there is none; warnings and safety last. Lengths in mm, angles in degrees.
[[nodiscard]] std::string planText(const PlanReport& report);

/// The ranked orders of each brake side by side: what each spoils, its care, clearance, flips, turns, tools, time.
[[nodiscard]] std::string comparisonText(const PlanReport& report);

/// A person's own order: fold by fold what clears, and what hits where it stops.
[[nodiscard]] std::string tryText(const TryReport& report);

}  // namespace tinwright
