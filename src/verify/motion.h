// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "solid.h"

namespace tinwright::replay {

/// What a stroke is made with; see the machine model in src/fold/NOTES.md.
struct Stroke {
    double nose_radius_mm = 0;
    double thickness_mm = 0;
    double allowance_mm = 0;
    double set_rad = 0;
    double setback_mm = 0;
    double hinge_height_mm = 0;

    /// Centre of the bend, in (y, z).
    [[nodiscard]] Vec2 centre() const { return Vec2(nose_radius_mm, thickness_mm + nose_radius_mm); }
};

/// A turn in the y-z plane about a point: the front (-y) goes up (+z).
[[nodiscard]] Rigid turnUp(const Vec2& about, double angle_rad);

/// How the strip forms on the way is not known: 0 is rolling round the nose, 1 uniform curvature, between them
/// a mixture of the two.
struct Motion {
    const char* name;
    double uniform_share;
};
inline constexpr Motion kMotions[] = {{"rolling", 0.0}, {"half-way", 0.5}, {"uniform", 1.0}};

/// Where the moving side of a flat bend is at an angle of the leaf.
[[nodiscard]] Rigid movingAt(const Stroke& stroke, const Motion& motion, double angle_rad);

/// Where the moving side is when it has sprung back to `angle_rad` with its whole strip formed.
[[nodiscard]] Rigid sprungTo(const Stroke& stroke, double angle_rad);

/// How far the leaf's face must stand back from where an ideal hinge puts it, for the clamped sheet's outer
/// face to bear on it.
[[nodiscard]] double leafBack_mm(const Stroke& stroke, const Motion& motion, double angle_rad);

/// No point of the moving side at `radius_mm` from the bend's centre moves faster than this, per radian.
[[nodiscard]] double movingRate_mm(const Stroke& stroke, double radius_mm);

}  // namespace tinwright::replay
