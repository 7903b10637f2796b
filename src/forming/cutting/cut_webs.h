// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/forming/cutting/cut_plan.h>

namespace tinwright::forming {

/// "cut.web": two cuts that leave less sheet between them than the process needs. "cut.narrow" for gaps of the outline
/// narrower than the kerf.
[[nodiscard]] std::vector<Finding> webFindings(const Part& part, const Region& path, const Cutting& cutting,
                                               const CutPlan& plan);

}  // namespace tinwright::forming
