// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <utility>
#include <vector>

#include <Eigen/Geometry>

#include <tinwright/geometry/planar.h>

#include "kernel/convex2.h"

namespace tinwright {

/// The point or vector as the machine's sections see it.
[[nodiscard]] inline Vec2 yz(const Vec3& v) { return {v.y(), v.z()}; }

/// How far a slice of a bend's arc may stand out from the arc itself.
inline constexpr double kArcSagitta_mm = 0.02;

/// A convex prism: two matching rings of corners. Panels' convex pieces and slices of bend arcs are such.
struct PrismRings {
    std::vector<Vec3> bottom;  ///< counter-clockwise seen from the top ring
    std::vector<Vec3> top;
};

/// A convex prism placed in a bend's frame (x along the bend), with all that the kernel asks of it.
/// Coordinates in mm; (y, z) is the plane in which everything on a brake moves.
class Solid {
public:
    Solid(const PrismRings& rings, const Eigen::Isometry3d& frame_from_rings);

    [[nodiscard]] const std::vector<Vec3>& corners() const { return corners_; }  ///< bottom ring, then top ring
    [[nodiscard]] double x_lo_mm() const { return x_lo_; }
    [[nodiscard]] double x_hi_mm() const { return x_hi_; }
    /// Its shadow in the (y, z) plane.
    [[nodiscard]] const Convex2& section() const { return section_; }
    /// True when every slice at constant x between x_lo and x_hi is the whole section.
    [[nodiscard]] bool uniform() const { return uniform_; }

    struct Face {
        Vec3 normal;    ///< outward, unit
        double offset;  ///< normal·p <= offset inside
    };
    /// Made anew at each call, as are the edge directions: few solids are ever asked for them.
    [[nodiscard]] std::vector<Face> faces() const;
    /// One unit vector for each direction that edges have.
    [[nodiscard]] std::vector<Vec3> edgeDirections() const;

    /// The x at which the solid, whose faces are given, meets the prism {(y, z) in `window`} that runs along x; none
    /// when it does not.
    [[nodiscard]] std::optional<std::pair<double, double>> xRangeIn(const ClipWindow& window,
                                                                    const std::vector<Face>& faces) const;

    [[nodiscard]] Solid movedAlongX(double by_mm) const;

private:
    void prepare();

    std::vector<Vec3> corners_;
    double x_lo_ = 0;
    double x_hi_ = 0;
    Convex2 section_;
    bool uniform_ = false;
};

/// The prism of a planar polygon in blank coordinates between two heights.
[[nodiscard]] PrismRings prismOf(const Polygon& polygon, double z_lo_mm, double z_hi_mm);

}  // namespace tinwright
