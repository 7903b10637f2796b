// SPDX-License-Identifier: GPL-3.0-or-later
#include "solids/solid.h"

#include <fcl/geometry/shape/convex.h>
#include <fcl/narrowphase/collision.h>

namespace tinwright::replay {

Solid hullOf(std::vector<Vec3> corners) {
    Solid solid;
    for (const Vec3& corner : corners) solid.box.extend(corner);
    // No faces are given: the library then takes its support points from a search of all corners, which cannot
    // be led astray by faces that are not quite plane. Boolean collision asks for nothing else.
    const auto points = std::make_shared<const std::vector<Vec3>>(std::move(corners));
    const auto faces = std::make_shared<const std::vector<int>>();
    auto shape = std::make_shared<fcl::Convex<double>>(points, 0, faces);
    shape->computeLocalAABB();
    solid.shape = std::move(shape);
    return solid;
}

Solid prism(const Polygon& section, double lo_mm, double hi_mm, const Rigid& world_from_section) {
    std::vector<Vec3> corners;
    corners.reserve(2 * section.size());
    for (const double z : {lo_mm, hi_mm}) {
        for (const Vec2& point : section) corners.push_back(world_from_section * Vec3(point.x(), point.y(), z));
    }
    return hullOf(std::move(corners));
}

Box boxAt(const Solid& solid, const Rigid& pose) {
    const Vec3 centre = pose * Vec3(solid.box.center());
    const Vec3 half = pose.linear().cwiseAbs() * (0.5 * solid.box.sizes());
    return Box(centre - half, centre + half);
}

bool meet(const Solid& a, const Rigid& pose_a, const Solid& b, const Rigid& pose_b) {
    fcl::CollisionRequest<double> request;                     // one contact is enough, its place is not asked for
    request.gjk_solver_type = fcl::GJKSolverType::GST_LIBCCD;  // the other solver misses deep contacts
    fcl::CollisionResult<double> result;
    return fcl::collide<double>(a.shape.get(), pose_a, b.shape.get(), pose_b, request, result) > 0;
}

}  // namespace tinwright::replay
