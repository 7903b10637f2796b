// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <vector>

#include <Eigen/Geometry>

#include <tinwright/geometry/planar.h>

namespace fcl {
template <typename Scalar>
class Convex;
}

/// Everything of the replay lives here, so that no name can meet one of the planner's.
namespace tinwright::replay {

using Rigid = Eigen::Isometry3d;
using Box = Eigen::AlignedBox3d;

/// A convex body for the collision library, and its bounding box in the same coordinates. Copies share the shape.
struct Solid {
    std::shared_ptr<const fcl::Convex<double>> shape;
    Box box;
};

/// The convex hull of some points (at least four, not in one plane).
[[nodiscard]] Solid hullOf(std::vector<Vec3> corners);

/// A convex section in the x-y plane of its frame, drawn from z = lo to z = hi.
[[nodiscard]] Solid prism(const Polygon& section, double lo_mm, double hi_mm, const Rigid& world_from_section);

/// A box round the solid when it has been moved by `pose`.
[[nodiscard]] Box boxAt(const Solid& solid, const Rigid& pose);

/// Whether two solids, each moved by its pose, have a point in common. What touches exactly may go either way.
[[nodiscard]] bool meet(const Solid& a, const Rigid& pose_a, const Solid& b, const Rigid& pose_b);

}  // namespace tinwright::replay
