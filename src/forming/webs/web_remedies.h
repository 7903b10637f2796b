// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "measures/leg.h"

/// Changes of a cut-out in the frame of a leg: x along the bend, y away from it.
namespace tinwright::forming {

[[nodiscard]] Polygon movedAway(Polygon outline, double by_mm);
/// Less wide by so much, about its middle.
[[nodiscard]] Polygon narrowedBy(Polygon outline, double by_mm);
/// Parted by tabs of equal width across it.
[[nodiscard]] std::vector<Polygon> bridgedBy(const Polygon& outline, int tabs, double tab_mm);

}  // namespace tinwright::forming
