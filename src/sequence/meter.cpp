// SPDX-License-Identifier: GPL-3.0-or-later
#include "meter.h"

namespace tinwright::search {

namespace {

constexpr std::uint64_t kStatesPerProgress = 64;

}  // namespace

Meter::Meter(const SearchOptions& options) : options_(options) {}

bool Meter::take() {
    if (options_.time_limit_s > 0 && !out_of_time_) {
        out_of_time_ = std::chrono::duration<double>(Clock::now() - begin_).count() >= options_.time_limit_s;
    }
    if (out_of_time_ || left_ == 0) return false;
    --left_;
    return true;
}

void Meter::countState() {
    ++states_;
    if (options_.progress && states_ % kStatesPerProgress == 0) options_.progress(states_);
}

}  // namespace tinwright::search
