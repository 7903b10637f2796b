// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/sequence/plan/planner.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>

namespace tinwright {

/// What was looked at for both; what was proven stays that of the first.
void addWork(SearchWork& all, const SearchWork& more);

/// Plans on a brake in one set-up after the other: the first in which an order works is told; none: the first in which
/// it is not known that none does, else the first of all. Precondition: there is one.
[[nodiscard]] BrakeResult planOverSetups(const Part& part, const Shop& shop, const std::vector<BrakeInSetup>& setups,
                                         const PlanOptions& options);

/// The same for a person's own order: the first in which it works, else the one in which it goes furthest.
[[nodiscard]] TryResult tryOverSetups(const Part& part, const Shop& shop, const std::vector<BrakeInSetup>& setups,
                                      const std::vector<std::vector<BendId>>& order, BendMask formed, const Pins& pins,
                                      const Material* material);

}  // namespace tinwright
