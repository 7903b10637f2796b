// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include <tinwright/brake/machines/brake.h>

#include "solids/solid.h"

namespace tinwright::replay {

/// What a stroke is made with; see the machine models in src/fold/NOTES.md. A leaf brake swings the moving side alone,
/// a press brake both, each with half of the strip by half the angle, and then the held side is the one at the back.
struct Bending {
    double nose_radius_mm = 0;
    double thickness_mm = 0;
    double allowance_mm = 0;
    double set_rad = 0;
    double setback_mm = 0;
    double hinge_height_mm = 0;
    std::optional<Vee> vee = std::nullopt;  ///< of a press brake; it has no setback and no hinge

    [[nodiscard]] bool isPress() const { return vee.has_value(); }
    /// What the moving side takes of the angle and of the strip.
    [[nodiscard]] double movingShare() const { return isPress() ? 0.5 : 1.0; }
    /// Centre of the bend, in (y, z).
    [[nodiscard]] Vec2 centre() const { return Vec2(isPress() ? 0.0 : nose_radius_mm, thickness_mm + nose_radius_mm); }
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

/// Where the held side is while the moving side is there: it lies still in a leaf brake, and is its mirror image in a
/// press brake.
[[nodiscard]] Rigid heldBeside(const Bending& stroke, const Rigid& moving);

/// How far the leaf's face must stand back from where an ideal hinge puts it, for the clamped sheet's outer
/// face to bear on it.
[[nodiscard]] double leafBack_mm(const Bending& stroke, const Motion& motion, double angle_rad);

/// How far the die of a press brake has come up when both sheets bear on the shoulders of its V.
[[nodiscard]] double dieRise_mm(const Bending& stroke, const Motion& motion, double angle_rad);

/// Where they bear on them: how far that place is from the middle of the strip while the sheet is flat.
[[nodiscard]] double bearingPlace_mm(const Bending& stroke, const Motion& motion, double angle_rad);

/// No point of a side at `radius_mm` from the bend's centre moves faster than this, per radian that the sheet is bent
/// by.
[[nodiscard]] double movingRate_mm(const Bending& stroke, double radius_mm);

}  // namespace tinwright::replay
