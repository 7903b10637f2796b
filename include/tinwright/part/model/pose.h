// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <Eigen/Geometry>

#include <tinwright/part/model/part.h>

namespace tinwright {

/// A rigid motion; named `aFromB` it takes coordinates of frame b to frame a.
using Rigid = Eigen::Isometry3d;

/// A turn about x that takes the front (-y) up (+z): how sheet and leaf of a brake swing in its frame.
[[nodiscard]] Eigen::Matrix3d frontUp(Angle angle);

/// Where the child side of a bend lies in the frame of its parent side, both given in blank coordinates, when
/// the bend is turned by `angle` round an inside radius of `inside_radius_mm` and its strip has taken
/// `allowance_mm` of sheet. The sheet is rolled round the arc: with u measured from the parent's tangent line
/// towards the child, the arc's centre is at (u, z) = (0, t + r) for a bend up and (0, -r) for one down.
[[nodiscard]] Rigid parentFromChild(const Bend& bend, double thickness_mm, Angle angle, double inside_radius_mm);

/// Poses of all panels in the frame of the base panel for a set of formed bends, hems closed; the others are flat.
/// With `inside_radius_mm` >= 0 every formed bend but hems has that radius instead of its own (what a nose gives it).
[[nodiscard]] std::vector<Rigid> baseFromPanels(const Part& part, BendMask formed, double inside_radius_mm = -1.0);

}  // namespace tinwright
