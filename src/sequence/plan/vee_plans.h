// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/sequence/plan/planner.h>

namespace tinwright {

/// Plans on a press brake whose V is not chosen: in each V that suits the thickness (inEachVee), the first in which an
/// order works is told; none: the first in which it is not known that none does, else the first of all.
[[nodiscard]] BrakeResult planOverVees(const Part& part, const Shop& shop, std::size_t brake,
                                       const PlanOptions& options);

/// The same for a person's own order: the first V in which it works, else the one in which it goes furthest.
[[nodiscard]] TryResult tryOverVees(const Part& part, const Shop& shop, std::size_t brake,
                                    const std::vector<std::vector<BendId>>& order, BendMask formed);

}  // namespace tinwright
