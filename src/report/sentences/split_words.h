// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include <tinwright/report/data/plan_report.h>

namespace tinwright::report {

/// In a few words: which brakes, how often the part is carried, how long it takes. Empty: there is no plan over two
/// brakes.
[[nodiscard]] std::string splitWords(const PlanReport& report);

}  // namespace tinwright::report
