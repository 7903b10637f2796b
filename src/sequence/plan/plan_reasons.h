// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/brake/plan/plan.h>
#include <tinwright/sequence/search/search.h>

#include "shop/shop_oracle.h"

namespace tinwright {

/// What keeps a bend from being made is told by the bend and the tools alone, so that no order can help.
[[nodiscard]] bool noOrderHelps(const Reason& reason);

/// Why no order works, in a fabricator's words; empty when it could not be told in few facts.
[[nodiscard]] std::vector<Cause> causesOf(ShopOracle& oracle, BendMask formed);

/// What must come before what, given orders that work.
void addForcedOrders(ShopOracle& oracle, BendMask formed, const std::vector<Order>& orders, BrakeResult& result);

}  // namespace tinwright
