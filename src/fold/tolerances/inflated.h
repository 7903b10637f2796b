// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "kernel/solid.h"
#include "tolerances/deviation.h"

namespace tinwright {

/// What a group is inflated by besides its own deviation.
struct Swelling {
    SeenFrom from = SeenFrom::kBars;
    bool cut = true;  ///< its outline is off, too; false between groups that are one flat sheet, cut in one go
    /// By how much the stroke may take it otherwise than told (moving groups), before it is turned: in any direction;
    /// flat sheet along itself. Flat sheet is taken down by the former, never up.
    double motion_mm = 0;
    double flat_motion_mm = 0;
};

/// The convex prisms of a group, in its panel's blank frame, each grown to hold its nominal prism wherever a deviation
/// within the box puts it. Faces stay plane: flat sheet grows across itself by an affine bound, an arc from end to end;
/// all else by the greatest bound over its corners. `pose`: from the blank frame to that of the fold. `outline`:
/// corners of a convex polygon that holds the flat sheet.
[[nodiscard]] std::vector<PrismRings> inflatedSheet(const std::vector<PrismRings>& prisms, const Polygon& outline,
                                                    const Rigid& pose, const Deviation& deviation, const Swelling& how);
[[nodiscard]] std::vector<PrismRings> inflatedArc(const std::vector<PrismRings>& slices, const Bend& bend,
                                                  const Rigid& pose, const Deviation& deviation, const Swelling& how);

}  // namespace tinwright
