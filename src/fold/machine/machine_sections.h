// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/geometry/planar.h>

namespace tinwright {

inline constexpr double kBeyond_mm = 2000;  ///< stands for "without end" over and behind a machine

/// The profile between two heights; a section cut by a level line may fall into several pieces.
[[nodiscard]] std::vector<Polygon> between(const Polygon& profile, double z_lo, double z_hi);

}  // namespace tinwright
