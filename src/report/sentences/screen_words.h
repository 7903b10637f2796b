// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/report/data/plan_report.h>

namespace tinwright::report {

/// What fits a cell of a table: "goes, 6 min 20 s", "tight, 7 min", "FAULTY, 55 s" (it goes by its geometry, but the
/// metal does not bear it), "OVERLOADED, 55 s" (nor does the machine), "no", "not decided".
[[nodiscard]] std::string verdictWords(const BrakeReport& brake);
/// What blocks the part on this brake: the first reason, and how many more there are. Empty when it goes.
[[nodiscard]] std::string blockWords(const PlanReport& report, const BrakeReport& brake);
/// What the metal (kFault) or the machine (kOverload) does not bear on this brake, a sentence each; empty as well when
/// nobody looked.
[[nodiscard]] std::vector<std::string> findingWords(const BrakeReport& brake, Severity severity);
/// The remedy that costs least: another brake as it is drawn, then the first of the others. Empty: none is known or
/// needed.
[[nodiscard]] std::string leastRemedy(const PlanReport& report, const BrakeReport& brake);
/// Brakes side by side, a line each; for one brake nothing.
[[nodiscard]] std::vector<std::string> sideBySide(const PlanReport& report);

}  // namespace tinwright::report
