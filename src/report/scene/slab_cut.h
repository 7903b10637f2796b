// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include <tinwright/geometry/planar.h>

#include "scene/fold_scene.h"

namespace tinwright::report {

/// The cut of a convex prism by the plane x = `x_mm`, in (y, z); empty when it is missed.
[[nodiscard]] Polygon cutAcross(const Slab& slab, double x_mm);

/// The same of all bodies of one side.
[[nodiscard]] std::vector<Polygon> cutAcross(const std::vector<PartBody>& bodies, bool moving, double x_mm);

/// What each piece of the part covers, seen along the machine, in (y, z).
[[nodiscard]] std::vector<Polygon> seenAlong(const std::vector<PartBody>& bodies);

/// Two points of two things where they come nearest.
struct NearestPoints {
    double gap_mm = 0;
    Vec3 a = Vec3::Zero();
    Vec3 b = Vec3::Zero();
};

/// Of two lists of convex prisms that do not overlap; nothing when they do or when one list is empty.
[[nodiscard]] std::optional<NearestPoints> nearestPoints(const std::vector<Slab>& a, const std::vector<Slab>& b);

}  // namespace tinwright::report
