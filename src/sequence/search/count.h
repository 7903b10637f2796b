// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <string>

#include "reach/reach.h"

namespace tinwright::search {

/// SearchResult::orders_feasible as its definition says, but for the rule about a count of 0: decimal, or empty when
/// the budget ran out or an undecided fold could change it.
[[nodiscard]] std::string countFeasible(StateTable& table, Reach& possible, Reach& undecided);

/// SearchResult::orders_total: decimal, or empty when more than `max_states` states would have to be looked at.
[[nodiscard]] std::string countTotal(StateTable& table, std::uint64_t max_states);

}  // namespace tinwright::search
