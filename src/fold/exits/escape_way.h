// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "exits/escape_search.h"
#include "exits/planar_escape.h"

namespace tinwright {

/// Whether the body meets nothing on the straight way between two places: offset, tilt and the upper row's height go
/// evenly from one to the other. A bound, not samples: halves that are not shown to be free are looked at again, down
/// to some thousandth of the way.
[[nodiscard]] bool isFreeBetween(const std::vector<EscapePair>& pairs, const PlanarPose& from, const PlanarPose& to);

/// The way with as few places as may be: those between two that are free of one another are left out.
[[nodiscard]] std::vector<PlanarPose> straightened(const std::vector<EscapePair>& pairs, const Vec2& pivot,
                                                   const std::vector<EscapePlace>& places);

}  // namespace tinwright
