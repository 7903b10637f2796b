// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>

namespace tinwright {

/// What a drawing may hold; each has an issue of its own when it is exceeded.
struct DxfLimits {
    static constexpr std::size_t kBytes = 64u << 20;
    static constexpr std::size_t kLine = 1000;         ///< bytes of a line; dxflib has 1024
    static constexpr std::size_t kEntities = 200'000;  ///< in the file, vertices of polylines among them
    static constexpr std::size_t kCurves = 200'000;    ///< after all blocks are inserted
    static constexpr std::size_t kPoints = 1'000'000;  ///< after flattening
    static constexpr std::size_t kDepth = 16;          ///< of blocks inside one another
    static constexpr double kFarthest_mm = 100'000;    ///< from the origin, of any point
    static constexpr double kLargestNumber = 1e12;
};

/// A chord stays within this of its curve; as the cut-outs of recipes.
inline constexpr double kDxfChord_mm = 0.02;
/// Coordinates are taken to this grid, so that the order of entities and the noise of their last digits decide nothing.
inline constexpr double kDxfGrid_mm = 1e-6;

}  // namespace tinwright
