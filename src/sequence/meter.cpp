// SPDX-License-Identifier: GPL-3.0-or-later
#include "meter.h"

namespace tinwright::search {

namespace {

constexpr std::uint64_t kUnitsPerProgress = 64;
// A move as it is listed.
constexpr std::uint64_t kBytesPerMove = 64;

}  // namespace

Meter::Meter(const SearchOptions& options) : options_(options) {}

bool Meter::take() {
    if (options_.time_limit_s > 0 && !out_of_time_) {
        out_of_time_ = std::chrono::duration<double>(Clock::now() - begin_).count() >= options_.time_limit_s;
    }
    if (out_of_time_ || left_ == 0 || outOfMemory()) return false;
    --left_;
    if (options_.progress && ++taken_ % kUnitsPerProgress == 0) options_.progress(progress_);
    return true;
}

void Meter::countState(std::size_t moves) {
    ++progress_.states;
    bytes_ += moves * kBytesPerMove;
}

bool Meter::keep(std::uint64_t bytes) {
    bytes_ += bytes;
    return !outOfMemory();
}

}  // namespace tinwright::search
