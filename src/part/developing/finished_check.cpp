// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include <tinwright/part/model/finished.h>
#include <tinwright/part/model/pose.h>

#include "developing/blank_check.h"

namespace tinwright {

namespace {

// A convex piece of a panel in the folded part.
struct Prism {
    std::vector<Vec3> points;
    std::vector<Vec3> normals;  ///< of its faces, unit, one of each pair of opposite ones
    std::vector<Vec3> edges;    ///< directions, unit
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

// Depth to which two convex bodies share space: the least overlap over all axes that could part them. Stops at the
// first axis that does.
double depth(const Prism& a, const Prism& b) {
    double least = 1e300;
    const auto parted = [&](const Vec3& axis) {
        least = std::min(least, overlapAlong(axis, a, b));
        return least <= kCollideDepth_mm;
    };
    for (const Vec3& axis : a.normals)
        if (parted(axis)) return 0;
    for (const Vec3& axis : b.normals)
        if (parted(axis)) return 0;
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

std::vector<Prism> prismsOf(const Region& region, double thickness, const Rigid& pose) {
    std::vector<Prism> prisms;
    for (const Polygon& piece : convexPieces(region)) prisms.push_back(makePrism(piece, thickness, pose));
    return prisms;
}

// Panels without their cut-outs first, which are cheap to split: what does not meet then does not meet at all.
class FoldedPanels {
public:
    explicit FoldedPanels(const Part& part)
        : part_(part), poses_(baseFromPanels(part, allFormed(part))), exact_(part.panels.size()) {
        for (std::size_t i = 0; i < part.panels.size(); ++i)
            filled_.push_back(prismsOf({part.panels[i].region.outline, {}}, part.thickness_mm, poses_[i]));
    }
    double depth_mm(std::size_t a, std::size_t b) {
        const double deep = depth(filled_[a], filled_[b]);
        const bool is_whole = part_.panels[a].region.holes.empty() && part_.panels[b].region.holes.empty();
        return deep <= kCollideDepth_mm || is_whole ? deep : depth(exact(a), exact(b));
    }

private:
    const std::vector<Prism>& exact(std::size_t i) {
        if (exact_[i].empty()) exact_[i] = prismsOf(part_.panels[i].region, part_.thickness_mm, poses_[i]);
        return exact_[i];
    }
    const Part& part_;
    std::vector<Rigid> poses_;
    std::vector<std::vector<Prism>> filled_;
    std::vector<std::vector<Prism>> exact_;
};

bool joined(const Part& part, std::size_t a, std::size_t b) {
    return std::any_of(part.bends.begin(), part.bends.end(), [&](const Bend& bend) {
        return (bend.parent.index() == a && bend.child.index() == b) ||
               (bend.parent.index() == b && bend.child.index() == a);
    });
}

}  // namespace

std::vector<PanelCollision> finishedCollisions(const Part& part) {
    FoldedPanels panels(part);
    std::vector<PanelCollision> collisions;
    for (std::size_t a = 0; a < part.panels.size(); ++a) {
        for (std::size_t b = a + 1; b < part.panels.size(); ++b) {
            if (joined(part, a, b)) continue;
            const double deep = panels.depth_mm(a, b);
            if (deep > kCollideDepth_mm) collisions.push_back({idAt<PanelId>(a), idAt<PanelId>(b), deep});
        }
    }
    return collisions;
}

void checkFinished(const Recipe& recipe, const Part& part, Issues& issues) {
    for (const PanelCollision& collision : finishedCollisions(part)) {
        const std::string& name = part.panel(collision.b).name;
        const auto flange =
            std::find_if(recipe.flanges.begin(), recipe.flanges.end(), [&](const Flange& f) { return f.name == name; });
        issues.push_back({"recipe.finished.collide", recipe.file, flange == recipe.flanges.end() ? "" : flange->place,
                          fmt::format("panels {} and {} are {:.2f} mm inside one another when all is folded",
                                      part.panel(collision.a).name, name, collision.depth_mm),
                          "a finished part that can exist", "shorten one, mitre its ends, or give the corner a type"});
    }
}

}  // namespace tinwright
