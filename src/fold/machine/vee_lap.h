// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/brake/machines/brake.h>

namespace tinwright {

/// A bend in the V of a press brake's dies.
struct VeeBend {
    Vee vee;
    double free_mm = 0;   ///< how far under its top the V is free of steel (freeDepth_mm)
    double sheet_mm = 0;  ///< sheet thickness and inside radius: from the lower face at the tip up to the arc's centre
    double half_rad = 0;  ///< half the angle at the end of the stroke
};

/// A lower bound of the distance between the other half of the dies and what of one side lies over its lower face, no
/// higher than the arc's centre, and reaches `lap_mm` past the end of its strip towards the middle, beside the strip:
/// all through the stroke, whichever way the strip forms. Its own half of the dies lies under the lower face. Negative:
/// perhaps they meet, as far as this tells.
[[nodiscard]] double lapClearance_mm(const VeeBend& bend, double lap_mm);

}  // namespace tinwright
