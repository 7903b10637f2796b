// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <atomic>
#include <chrono>
#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include <tinwright/sequence/oracle.h>

namespace tinwright {

/// Limits and wishes of a search.
struct SearchOptions {
    std::size_t plans = 3;                         ///< K
    std::uint64_t max_states = 2'000'000;          ///< labels opened, a budget counted in work
    std::uint64_t max_counted_states = 60'000;     ///< states opened only to count orders
    double time_limit_s = 0;                       ///< outer guard; 0: none
    std::function<void(std::uint64_t states)> progress;  ///< called now and then, may be empty
};

/// How a search ended.
enum class SearchEnd { kFound, kProvenNone, kBudgetSpent, kUndecidedFolds };

struct OrderStep {
    FoldMove move;
    Standing before = kNothingStanding;
    BendMask formed = 0;           ///< before the step
    StepCost cost;
};

struct Order {
    std::vector<OrderStep> steps;
    std::int64_t time_ms = 0;
    std::int64_t pieces = 0;
    std::int64_t clearance_um = 0; ///< worst
    bool tight = false;
};

struct SearchResult {
    SearchEnd end = SearchEnd::kProvenNone;
    std::vector<Order> orders;     ///< best first, at most K, no two the same in bends and holds
    bool proven_best = false;      ///< false when a budget ended the search
    std::string orders_feasible;   ///< decimal, empty when not counted
    std::string orders_total;
    BendMask deepest = 0;          ///< when none: a stuck reachable state with the most bends formed
    std::uint64_t states_opened = 0;
};

/// The K best orders from `formed` to all bends formed. Ranked: orders without a tight step first; then
/// time, pieces, larger worst clearance; then the sequence of (bends, hold), so that ties are settled too.
[[nodiscard]] SearchResult searchOrders(FoldOracle& oracle, BendMask formed, const SearchOptions& options);

}  // namespace tinwright
