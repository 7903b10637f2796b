// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Parts of any number of bends, for what grows with it: made of sheet 1.5 thick, folded 90 degrees.

#include <cstddef>
#include <string>

#include <tinwright/part/model/part.h>

namespace tinwright::bench {

/// A rectangular floor with walls on all four sides, each wall with a lip turned in: `bends` / 2 walls, several along a
/// side when there are more than four. `bends` is even, at least 8.
[[nodiscard]] Part boxWithLips(std::size_t bends);
/// One strip with bends across it, up and down by turns, as a flight of stairs: a chain.
[[nodiscard]] Part ladder(std::size_t bends);
/// A strip with tabs along both long edges, all up. `bends` is even.
[[nodiscard]] Part comb(std::size_t bends);

/// "box", "ladder" or "comb".
[[nodiscard]] Part familyPart(const std::string& family, std::size_t bends);

}  // namespace tinwright::bench
