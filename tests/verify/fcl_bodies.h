// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Convex bodies for the independent collision library, so that a random-state test of the fold kernel is easily
// written:
//     const auto panel = tinwright::fclPrism(piece, 0, t, frameFromBlank);
//     const auto tool = tinwright::fclPrism(profile, x0, x1, tinwright::fclAlongX());
//     if (tinwright::fclHit(panel, tool)) ...
// Link `fcl`. Only boolean collision with the libccd solver is used: its answers are sound on convex bodies. What
// touches exactly may be reported either way, so shrink one body by the contact tolerance (fclShrunk).

#include <cmath>
#include <memory>
#include <vector>

#include <fcl/geometry/shape/convex.h>
#include <fcl/narrowphase/collision.h>
#include <Eigen/Geometry>

#include <tinwright/geometry/planar.h>

namespace tinwright {

using ConvexPoints = std::vector<Eigen::Vector3d>;

/// The frame in which a section given in (y, z) lies, to be drawn along x.
inline Eigen::Isometry3d fclAlongX() {
    Eigen::Isometry3d frame = Eigen::Isometry3d::Identity();
    frame.linear() << 0, 0, 1, 1, 0, 0, 0, 1, 0;
    return frame;
}

/// Corners of the prism of a convex polygon in the x-y plane of a frame between two heights there.
inline ConvexPoints fclPrism(const Polygon& convex, double z0_mm, double z1_mm,
                             const Eigen::Isometry3d& frame = Eigen::Isometry3d::Identity()) {
    ConvexPoints points;
    for (const double z : {z0_mm, z1_mm}) {
        for (const Vec2& corner : convex) points.push_back(frame * Eigen::Vector3d(corner.x(), corner.y(), z));
    }
    return points;
}

inline ConvexPoints fclMoved(ConvexPoints points, const Eigen::Isometry3d& by) {
    for (Eigen::Vector3d& point : points) point = by * point;
    return points;
}

/// A convex counter-clockwise polygon with every edge moved inwards; empty when an edge would turn round.
inline Polygon fclShrunk(const Polygon& convex, double by_mm) {
    const std::size_t n = convex.size();
    Polygon result;
    const auto normal = [&](std::size_t i) {
        const Vec2 edge = (convex[(i + 1) % n] - convex[i]).normalized();
        return Vec2(-edge.y(), edge.x());  // inwards
    };
    for (std::size_t i = 0; i < n; ++i) {
        Eigen::Matrix2d lines;
        lines << normal((i + n - 1) % n).transpose(), normal(i).transpose();
        result.push_back(convex[i] + lines.inverse() * Vec2(by_mm, by_mm));
    }
    for (std::size_t i = 0; i < n; ++i) {
        if ((result[(i + 1) % n] - result[i]).dot(convex[(i + 1) % n] - convex[i]) <= 0) return {};
    }
    return result;
}

/// Whether the convex hulls of two sets of points have a point in common.
inline bool fclHit(const ConvexPoints& a, const ConvexPoints& b) {
    // Without faces the library finds support points by a search of all corners; it needs no more for this.
    const auto none = std::make_shared<const std::vector<int>>();
    const fcl::Convex<double> hull_a(std::make_shared<const ConvexPoints>(a), 0, none);
    const fcl::Convex<double> hull_b(std::make_shared<const ConvexPoints>(b), 0, none);
    fcl::CollisionRequest<double> request;
    request.gjk_solver_type = fcl::GJKSolverType::GST_LIBCCD;
    fcl::CollisionResult<double> result;
    const Eigen::Isometry3d here = Eigen::Isometry3d::Identity();
    return fcl::collide<double>(&hull_a, here, &hull_b, here, request, result) > 0;
}

}  // namespace tinwright
