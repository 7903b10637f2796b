// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/base/ids.h>
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/part/model/part.h>

namespace tinwright {

/// Bends that are drawn with an inside radius more than 0.05 mm off this one: less makes 0.02 mm at a square bend, (2 -
/// pi / 2) of it. Hems, which are closed to their gap, are none of them.
[[nodiscard]] std::vector<BendId> drawnOtherwise(const Part& part, double inside_radius_mm);

/// What gives bends their inside radius: "the nose of this brake", "a V of 12".
[[nodiscard]] std::string radiusGiver(const BrakeInSetup& brake);

}  // namespace tinwright
