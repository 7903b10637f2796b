// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/report/data/plan_report.h>

namespace tinwright::report {

/// What a person has settled, a few words each: "left with floor held", "first a, b+c", "V 16 alone".
[[nodiscard]] std::vector<std::string> pinWords(const PlanReport& report);

/// When no order works as pinned on one brake: what becomes of it without the pins; else nothing.
[[nodiscard]] std::string withoutPinsWords(const BrakeResult& result);
/// The same of several brakes: "Without the pins an order works on folder"; nothing when nothing is pinned.
[[nodiscard]] std::string withoutPinsWords(const PlanReport& report);

/// " as pinned", where something is; else nothing.
[[nodiscard]] inline std::string asPinned(bool is_pinned) { return is_pinned ? " as pinned" : ""; }

}  // namespace tinwright::report
