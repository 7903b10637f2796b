// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/report/data/plan_report.h>

namespace tinwright {

/// One part of those that are held against the brakes of a shop.
struct ScreenedPart {
    std::string file;   ///< as it was asked for
    PlanReport report;  ///< of the same brakes for all parts; of each the best plan is enough
};

/// The table: a row for each part, a column for each brake; then for each part that goes nowhere or only tightly what
/// blocks it, the first remedy, and what a machine would need.
[[nodiscard]] std::string screenText(const std::vector<ScreenedPart>& parts);

/// The same for another program, as src/report/SCREEN_FORMAT.md says.
[[nodiscard]] std::string screenJson(const std::vector<ScreenedPart>& parts);
inline constexpr const char* kScreenFormat = "tinwright-screen/1";

}  // namespace tinwright
