// SPDX-License-Identifier: GPL-3.0-or-later
#include "states/work_budget.h"

namespace tinwright::search {

namespace {

constexpr std::uint64_t kUnitsPerProgress = 64;
// A stroke as it is listed.
constexpr std::uint64_t kBytesPerMove = 64;

}  // namespace

WorkBudget::WorkBudget(const SearchOptions& options) : options_(options) {}

bool WorkBudget::take() {
    if (options_.time_limit_s > 0 && !out_of_time_) {
        out_of_time_ = std::chrono::duration<double>(Clock::now() - begin_).count() >= options_.time_limit_s;
    }
    if (out_of_time_ || left_ == 0 || outOfMemory()) return false;
    --left_;
    if (options_.progress && ++taken_ % kUnitsPerProgress == 0) options_.progress(progress_);
    return true;
}

void WorkBudget::countState(std::size_t candidates) {
    ++progress_.states;
    bytes_ += candidates * kBytesPerMove;
}

bool WorkBudget::keep(std::uint64_t bytes) {
    bytes_ += bytes;
    return !outOfMemory();
}

}  // namespace tinwright::search
