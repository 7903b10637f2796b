// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>

namespace tinwright {

/// A value mixed into a hash, step by step: hashed(hashed(0, a), b). For finding things again within a run; never
/// written to a file, and no order rests on it.
[[nodiscard]] constexpr std::uint64_t hashed(std::uint64_t hash, std::uint64_t value) {
    hash = (hash ^ value) * 0x9e3779b97f4a7c15ULL;  // 2^64 over the golden ratio
    return hash ^ (hash >> 29);
}

}  // namespace tinwright
