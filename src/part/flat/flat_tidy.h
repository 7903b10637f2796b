// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/geometry/planar.h>

namespace tinwright {

/// A straight line: unit normal · point = offset.
struct TidyLine {
    Vec2 normal = Vec2::UnitX();
    double offset_mm = 0;
};

/// Draws corners that lie within a micrometre of a line onto it, then drops corners that turn nothing and spikes
/// without width: what overlays of drawn coordinates leave behind would otherwise split a panel into slivers.
void tidy(Region& region, const std::vector<TidyLine>& lines);

}  // namespace tinwright
