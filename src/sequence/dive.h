// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "rank.h"
#include "reach.h"

namespace tinwright::search {

enum class DiveEnd {
    kEnough,    ///< as many orders as were wanted; better ones may exist
    kAll,       ///< there are no other orders
    kStopped,   ///< the meter ran out
};

/// Finds up to K orders by taking the cheapest next step that can still be finished from. They are what is in
/// hand should a limit end the search, and they bound it from above. Few orders are found all.
[[nodiscard]] DiveEnd dive(StateTable& table, Reach& reach, BestOrders& best);

}  // namespace tinwright::search
