// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solids/motion.h"

namespace tinwright::replay {

/// What a leaf turns about.
struct Hinge {
    double setback_mm = 0;    ///< from the nose line to it
    double height_mm = 0;     ///< over what the sheet lies on
    double over_leaf_mm = 0;  ///< over what of the leaf bears on the sheet, at rest
    [[nodiscard]] Vec2 place() const { return {-setback_mm, height_mm}; }
};

/// How far past the strip of the bend the leaf begins on the flat of the moving side, over the stroke.
struct LeafBegins {
    double least_mm = 0;
    double most_mm = 0;
};
[[nodiscard]] LeafBegins leafBeginsPastStrip(const Bending& stroke, const Hinge& hinge);

/// How far the leaf's face must stand back from where an ideal hinge puts it, for the clamped sheet's outer
/// face to bear on it.
[[nodiscard]] double leafBack_mm(const Bending& stroke, const Hinge& hinge, const Motion& motion, double angle_rad);

}  // namespace tinwright::replay
