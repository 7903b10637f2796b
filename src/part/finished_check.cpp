// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include <tinwright/part/finished.h>
#include <tinwright/part/pose.h>

#include "blank_check.h"

namespace tinwright {

namespace {

// A convex piece of a panel in the folded part.
struct Prism {
    std::vector<Vec3> points;
    std::vector<Vec3> normals;    ///< of its faces, unit, one of each pair of opposite ones
    std::vector<Vec3> edges;      ///< directions, unit
    Eigen::AlignedBox3d box;
};

Prism makePrism(const Polygon& polygon, double thickness, const Rigid& pose) {
    Prism prism;
    const Vec3 up = pose.linear().col(2);
    prism.normals.push_back(up);
    prism.edges.push_back(up);
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        for (const double z : {0.0, thickness}) {
            prism.points.push_back(pose * Vec3(polygon[i].x(), polygon[i].y(), z));
            prism.box.extend(prism.points.back());
        }
        const Vec2 d = (polygon[(i + 1) % polygon.size()] - polygon[i]).normalized();
        const Vec3 along = pose.linear() * Vec3(d.x(), d.y(), 0);
        prism.edges.push_back(along);
        prism.normals.push_back(along.cross(up));
    }
    return prism;
}

double overlapAlong(const Vec3& axis, const Prism& a, const Prism& b) {
    double lo_a = 1e300, hi_a = -1e300, lo_b = 1e300, hi_b = -1e300;
    for (const Vec3& p : a.points) lo_a = std::min(lo_a, axis.dot(p)), hi_a = std::max(hi_a, axis.dot(p));
    for (const Vec3& p : b.points) lo_b = std::min(lo_b, axis.dot(p)), hi_b = std::max(hi_b, axis.dot(p));
    return std::min(hi_a - lo_b, hi_b - lo_a);
}

// Depth to which two convex bodies share space: the least overlap over all axes that could part them. Stops at the first
// axis that does.
double depth(const Prism& a, const Prism& b) {
    double least = 1e300;
    const auto parted = [&](const Vec3& axis) {
        least = std::min(least, overlapAlong(axis, a, b));
        return least <= kCollideDepth_mm;
    };
    for (const Vec3& axis : a.normals) if (parted(axis)) return 0;
    for (const Vec3& axis : b.normals) if (parted(axis)) return 0;
    for (const Vec3& ea : a.edges) {
        for (const Vec3& eb : b.edges) {
            const Vec3 axis = ea.cross(eb);
            if (axis.norm() > 1e-6 && parted(axis.normalized())) return 0;
        }
    }
    return least;
}

double depth(const std::vector<Prism>& a, const std::vector<Prism>& b) {
    double deepest = 0;
    for (const Prism& p : a) {
        for (const Prism& q : b) {
            if (!p.box.intersection(q.box).isEmpty()) deepest = std::max(deepest, depth(p, q));
        }
    }
    return deepest;
}

std::vector<std::vector<Prism>> foldedPrisms(const Part& part) {
    const std::vector<Rigid> poses = baseFromPanels(part, allFormed(part));
    std::vector<std::vector<Prism>> prisms(part.panels.size());
    for (std::size_t i = 0; i < part.panels.size(); ++i) {
        for (const Polygon& piece : convexPieces(part.panels[i].region)) prisms[i].push_back(makePrism(piece, part.thickness_mm, poses[i]));
    }
    return prisms;
}

bool joined(const Part& part, std::size_t a, std::size_t b) {
    return std::any_of(part.bends.begin(), part.bends.end(), [&](const Bend& bend) {
        return (bend.parent.index() == a && bend.child.index() == b) || (bend.parent.index() == b && bend.child.index() == a);
    });
}

}  // namespace

std::vector<PanelCollision> finishedCollisions(const Part& part) {
    const auto prisms = foldedPrisms(part);
    std::vector<PanelCollision> collisions;
    for (std::size_t a = 0; a < prisms.size(); ++a) {
        for (std::size_t b = a + 1; b < prisms.size(); ++b) {
            if (joined(part, a, b)) continue;
            const double deep = depth(prisms[a], prisms[b]);
            if (deep > kCollideDepth_mm) collisions.push_back({idAt<PanelId>(a), idAt<PanelId>(b), deep});
        }
    }
    return collisions;
}

void checkFinished(const Recipe& recipe, const Part& part, Issues& issues) {
    for (const PanelCollision& collision : finishedCollisions(part)) {
        const std::string& name = part.panel(collision.b).name;
        const auto flange = std::find_if(recipe.flanges.begin(), recipe.flanges.end(), [&](const Flange& f) { return f.name == name; });
        issues.push_back({"recipe.finished.collide", recipe.file, flange == recipe.flanges.end() ? "" : flange->place,
                          fmt::format("panels {} and {} are {:.2f} mm inside one another when all is folded", part.panel(collision.a).name,
                                      name, collision.depth_mm),
                          "a finished part that can exist", "shorten one, mitre its ends, or give the corner a type"});
    }
}

}  // namespace tinwright
