// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/forming/cutting/cut_plan.h>

namespace tinwright::forming {

/// "cut.corner": sharp inside corners of the cut path, which come out with the radius of the process. One finding a
/// cut-out, one for the outline.
[[nodiscard]] std::vector<Finding> cornerFindings(const Part& part, const Region& path, const Cutting& cutting,
                                                  const CutPlan& plan);

}  // namespace tinwright::forming
