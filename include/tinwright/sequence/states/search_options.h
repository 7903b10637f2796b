// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>

namespace tinwright {

/// How far a search is.
struct SearchProgress {
    std::uint64_t states = 0;              ///< opened
    std::uint64_t partial_orders = 0;      ///< taken further
    std::optional<std::int64_t> least_ms;  ///< no order left takes less
    std::optional<std::int64_t> best_ms;   ///< of the best order in hand
};

/// Limits and wishes of a search. Work is counted, so that the same input ends in the same way on every machine;
/// only `time_limit_s` looks at a clock.
struct SearchOptions {
    std::size_t plans = 3;                             ///< K, at least 1
    std::uint64_t max_states = 2'000'000;              ///< states opened and partial orders kept to find the orders
    std::uint64_t max_counted_states = 60'000;         ///< states opened only to count orders
    std::uint64_t max_dead_ends = 5'000;               ///< states opened only to find `deepest`
    double time_limit_s = 0;                           ///< outer guard; 0: none
    std::uint64_t max_bytes = std::uint64_t{1} << 30;  ///< of memory for states and partial orders, as far as they are
                                                       ///< counted
    bool find_deepest = true;                          ///< when no order works
    bool verdict_only = false;  ///< orders that are found quickly will do: none is ranked against all others, nothing
                                ///< is counted
    std::function<void(const SearchProgress&)> progress;  ///< called now and then, may be empty
};

}  // namespace tinwright
