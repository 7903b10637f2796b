// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/brake/plan/plan.h>
#include <tinwright/sequence/search/search.h>

#include "shop/shop_oracle.h"

namespace tinwright {

/// What keeps a bend from being made is told by the bend and the tools alone, so that no order can help.
[[nodiscard]] bool noOrderHelps(const Reason& reason);

/// Why no order works, in a fabricator's words; empty when it could not be told in few facts. `asked`: the oracle that
/// was searched; what it pins is taken for granted and is no fact of a cause.
[[nodiscard]] std::vector<Cause> causesOf(FoldOracle& asked, FoldEngine& engine, BendMask formed);

/// In the state from which nothing goes on: what blocks each bend that is left, held as it may be. Where a stroke is
/// pinned next, what blocks that.
[[nodiscard]] std::vector<Reason> reasonsAt(FoldOracle& asked, FoldEngine& engine, BendMask formed,
                                            const std::vector<BendMask>& first);

/// What must come before what, given orders that work. By geometry alone: `oracle` knows nothing of pins.
void addForcedOrders(ShopOracle& oracle, BendMask formed, const std::vector<Order>& orders, BrakeResult& result);

}  // namespace tinwright
