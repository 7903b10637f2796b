// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "reach/reach.h"
#include "search/bound.h"
#include "search/rank.h"

namespace tinwright::search {

enum class DescentEnd {
    kEnough,   ///< as many orders as were wanted; better ones may exist
    kAll,      ///< there are no other orders
    kStopped,  ///< the budget ran out
};

/// Finds up to K orders by taking the step next that can still be finished from and promises least, with the bound of
/// what remains. They are what is in hand should a limit end the search, and they bound it from above. Few orders are
/// found all.
[[nodiscard]] DescentEnd greedyDescent(StateTable& table, Reach& reach, const Bounds& bounds, BestOrders& best);

/// Offers the order by which the part is known to be finished: no state is opened for it.
void offerKnown(StateTable& table, Reach& reach, BestOrders& best);

/// Looks for K orders that take little: only steps that promise no more than an order in hand takes, then no more than
/// the next that was left out, and so on. Ends when there are K, or after some work. Worth it with a sharp bound. False
/// when the budget ran out.
[[nodiscard]] bool descendWithin(StateTable& table, Reach& reach, const Bounds& bounds, BestOrders& best);

}  // namespace tinwright::search
