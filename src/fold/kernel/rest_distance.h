// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "kernel/solid.h"

namespace tinwright {

/// Distance of two convex solids that stand still, 0 when they meet; some value over `enough_mm` when it is more than
/// that. Not a bound from below, as separating axes give it (solid_pair.h), but the distance itself: what is said to be
/// drawn close is excused from keeping away.
[[nodiscard]] double restDistance_mm(const Solid& a, const Solid& b, double enough_mm);

}  // namespace tinwright
