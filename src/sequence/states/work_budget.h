// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <cstdint>

#include <tinwright/sequence/states/search_options.h>

namespace tinwright::search {

/// Counts work against an allowance, and looks at the clock as the outer guard.
class WorkBudget {
public:
    explicit WorkBudget(const SearchOptions& options);

    /// Starts a new allowance; what was left of the one before is void.
    void allow(std::uint64_t units) { left_ = units; }
    /// One unit of work. False when the allowance is used up or the time is over: the caller stops.
    [[nodiscard]] bool take();
    /// A state's strokes were asked, so many of them.
    void countState(std::size_t candidates);
    /// Memory that is kept until the end. False when that is too much: the caller stops.
    [[nodiscard]] bool keep(std::uint64_t bytes);
    /// What the oracle keeps in all.
    void oracleHolds(std::uint64_t bytes) { oracle_bytes_ = bytes; }
    /// What is told of the search; the state count is the budget's own.
    [[nodiscard]] SearchProgress& progress() { return progress_; }

    [[nodiscard]] bool outOfTime() const { return out_of_time_; }
    [[nodiscard]] bool outOfMemory() const { return bytes_ + oracle_bytes_ > options_.max_bytes; }
    [[nodiscard]] std::uint64_t states() const { return progress_.states; }

private:
    using Clock = std::chrono::steady_clock;

    const SearchOptions& options_;
    Clock::time_point begin_ = Clock::now();
    std::uint64_t left_ = 0;
    std::uint64_t bytes_ = 0;
    std::uint64_t oracle_bytes_ = 0;
    std::uint64_t taken_ = 0;
    SearchProgress progress_;
    bool out_of_time_ = false;
};

}  // namespace tinwright::search
