// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solids/solid.h"

namespace tinwright::replay {

/// What the sheet does in a stroke; see the machine models in src/fold/NOTES.md.
struct Bending {
    double inside_radius_mm = 0;
    double thickness_mm = 0;
    double allowance_mm = 0;
    double set_rad = 0;
    /// Each with half of the strip by half the angle, the held side at the back; else the moving side swings alone.
    bool both_sides_move = false;

    /// What the moving side takes of the angle and of the strip.
    [[nodiscard]] double movingShare() const { return both_sides_move ? 0.5 : 1.0; }
    /// Centre of the bend, in (y, z).
    [[nodiscard]] Vec2 centre() const {
        return Vec2(both_sides_move ? 0.0 : inside_radius_mm, thickness_mm + inside_radius_mm);
    }
    /// y at which the flat strip of a bend ends on the held side.
    [[nodiscard]] double stripBack_mm(double of_allowance_mm) const {
        return both_sides_move ? 0.5 * of_allowance_mm : inside_radius_mm;
    }
};

/// A move straight up.
[[nodiscard]] inline Rigid raised(double by_mm) { return Rigid(Eigen::Translation3d(0, 0, by_mm)); }

/// A turn in the y-z plane about a point: the front (-y) goes up (+z).
[[nodiscard]] Rigid turnUp(const Vec2& about, double angle_rad);

/// How the strip forms on the way is not known: 0 is rolling round the nose, 1 uniform curvature, between them
/// a mixture of the two.
struct Motion {
    const char* name;
    double uniform_share;
};
inline constexpr Motion kMotions[] = {{"rolling", 0.0}, {"half-way", 0.5}, {"uniform", 1.0}};

/// Where the moving side of a flat bend is when it is bent by an angle.
[[nodiscard]] Rigid movingAt(const Bending& stroke, const Motion& motion, double angle_rad);

/// Where the moving side is when it has sprung back to `angle_rad` with its whole strip formed.
[[nodiscard]] Rigid sprungTo(const Bending& stroke, double angle_rad);

/// Where the held side is while the moving side is there: it lies still, or is the mirror image of the other when both
/// move.
[[nodiscard]] Rigid heldBeside(const Bending& stroke, const Rigid& moving);

/// How far a point of the moving side has gone, in (y, z), before the side is turned about the bend's centre.
[[nodiscard]] Vec2 shiftBeforeTurn(const Bending& stroke, const Motion& motion, double angle_rad);

/// How far the moving sheet's outer face is from the bend's centre, along its normal.
[[nodiscard]] double outerFace_mm(const Bending& stroke, const Motion& motion, double angle_rad);

/// No point of a side at `radius_mm` from the bend's centre moves faster than this, per radian that the sheet is bent
/// by.
[[nodiscard]] double movingRate_mm(const Bending& stroke, double radius_mm);

}  // namespace tinwright::replay
