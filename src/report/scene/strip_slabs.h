// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/part/model/part.h>

#include "scene/shapes.h"
#include "scene/sheet_motion.h"

namespace tinwright::report {

/// How far a bend's strip is rolled.
struct StripState {
    double angle_rad = 0;     ///< of the arc
    double share = 0;         ///< of the strip that is in the arc; the rest is still flat, past the arc
    bool from_parent = true;  ///< the arc starts at the parent's tangent line (else at the child's)
};

/// The strip as convex pieces in the blank frame of the panel where its arc starts: slices of the arc, then what is
/// flat. A formed bend has share 1, a flat one angle 0.
[[nodiscard]] std::vector<Slab> stripSlabs(const Bend& bend, double thickness_mm, double radius_mm,
                                           const StripState& state);

/// A strip of this stroke, by where it begins to roll: from its middle both halves grow, each as the strip of a bend
/// half as wide. `state`: of the whole strip; from_parent tells which side is held.
[[nodiscard]] std::vector<Slab> newStripSlabs(const Bend& bend, double thickness_mm, double radius_mm,
                                              const StripState& state, RollsFrom rolls_from);

/// A closed hem: its arc, and what of the first fold's strip lies flat on either side; in the parent's blank frame.
[[nodiscard]] std::vector<Slab> closedHemSlabs(const Bend& bend, double thickness_mm);

/// Slices that an arc is drawn with.
[[nodiscard]] int arcSlices(double angle_rad);

}  // namespace tinwright::report
