// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include <tinwright/brake/plan/plan.h>
#include <tinwright/part/model/part.h>

namespace tinwright::report {

/// How a sheet is gauged on a press brake: "stop 38.4 mm behind the punch, edge left.front, flat, ±0.3 mm"; without a
/// stop why, and the sight line.
[[nodiscard]] std::string gaugeText(const Part& part, const BrakeInSetup& brake, const FoldStep& step);

/// Why there is no stop; empty when there is one, or nobody looked.
[[nodiscard]] std::string gaugeTroubleWords(const BrakeInSetup& brake, const FoldStep& step);

}  // namespace tinwright::report
