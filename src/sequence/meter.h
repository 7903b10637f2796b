// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <cstdint>

#include <tinwright/sequence/search.h>

namespace tinwright::search {

/// Counts work against an allowance, and looks at the clock as the outer guard.
class Meter {
public:
    explicit Meter(const SearchOptions& options);

    /// Starts a new allowance; what was left of the one before is void.
    void allow(std::uint64_t units) { left_ = units; }
    /// One unit of work. False when the allowance is used up or the time is over: the caller stops.
    [[nodiscard]] bool take();
    /// A state's moves were asked.
    void countState();

    [[nodiscard]] bool outOfTime() const { return out_of_time_; }
    [[nodiscard]] std::uint64_t states() const { return states_; }

private:
    using Clock = std::chrono::steady_clock;

    const SearchOptions& options_;
    Clock::time_point begin_ = Clock::now();
    std::uint64_t left_ = 0;
    std::uint64_t states_ = 0;
    bool out_of_time_ = false;
};

}  // namespace tinwright::search
