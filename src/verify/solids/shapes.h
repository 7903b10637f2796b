// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/part/model/part.h>

#include "solids/bodies.h"

namespace tinwright::replay {

/// Every panel's shape in blank coordinates: made once, used in every fold.
[[nodiscard]] std::vector<Shape> panelShapes(const Part& part);

/// A bend's strip while it is flat, in blank coordinates.
[[nodiscard]] Shape flatStrip(const Part& part, const Bend& bend);

/// A bend's strip rolled by `angle`, in the blank coordinates of the side that stays: its parent's, or its
/// child's when `child_stays`. Slices lie inside the true arc, and are so fine that they fall short of it by at
/// most 0.005 mm.
[[nodiscard]] Shape rolledStrip(const Part& part, const Bend& bend, Angle angle, double radius_mm, bool child_stays);

}  // namespace tinwright::replay
