// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/report/data/plan_report.h>

namespace tinwright::report {

/// "what would lift it, each planned again", or "better" for a part that goes.
[[nodiscard]] std::string remedyTitle(const BrakeReport& brake);
/// One sentence each: what is done, what it costs, what it buys.
[[nodiscard]] std::vector<std::string> remedyLines(const PlanReport& report, const RemedyReport& remedies);
/// Said when there is none for that brake.
[[nodiscard]] std::string noRemedyText(const BrakeInSetup& brake, const RemedyReport& remedies);
/// "other-brake", "dimension", "two-dimensions", "open-corners", "bar", "welded-bend".
[[nodiscard]] const char* nameOf(RemedyKind kind);

}  // namespace tinwright::report
