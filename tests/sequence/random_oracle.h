// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <memory>

#include "scripted_oracle.h"

namespace tinwright::test {

/// What a random instance is made of; everything follows from it.
struct RandomInstance {
    std::uint64_t seed = 0;
    std::size_t bends = 4;
    int holds = 2;
    int forbidden = 4;        ///< forbidden partial states
    int undecided = 0;        ///< undecided partial states
    std::uint64_t truth = 0;  ///< 0: undecided stays so; 1: all possible; else: each by a coin with this seed
};

/// Feasibility by partial states, lines that come together and fall apart with the state, times that violate the
/// triangle inequality between setups, and many ties.
[[nodiscard]] std::unique_ptr<ScriptedOracle> makeOracle(const RandomInstance& instance);

}  // namespace tinwright::test
