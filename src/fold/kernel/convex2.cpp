// SPDX-License-Identifier: GPL-3.0-or-later
#include "kernel/convex2.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include <tinwright/geometry/cross.h>

namespace tinwright {

namespace {

constexpr double kGridPerMm = 1e6 * 1e3;

Vec2 meet(const Vec2& normal_a, double offset_a, const Vec2& normal_b, double offset_b) {
    const double det = cross(normal_a, normal_b);
    return Vec2((offset_a * normal_b.y() - offset_b * normal_a.y()) / det,
                (normal_a.x() * offset_b - normal_b.x() * offset_a) / det);
}

Polygon clip(const Polygon& polygon, const Vec2& normal, double offset) {
    Polygon kept;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const Vec2& a = polygon[i];
        const Vec2& b = polygon[(i + 1) % polygon.size()];
        const double da = normal.dot(a) - offset;
        const double db = normal.dot(b) - offset;
        if (da <= 0) kept.push_back(a);
        if ((da < 0 && db > 0) || (da > 0 && db < 0)) kept.push_back(a + (b - a) * (da / (da - db)));
    }
    return kept;
}

Polygon insetPolygon(const Polygon& corners, const std::vector<double>& inset) {
    Polygon left = corners;
    for (std::size_t i = 0; i < corners.size() && !inset.empty(); ++i) {
        if (inset[i] == 0) continue;
        const Vec2 edge = corners[(i + 1) % corners.size()] - corners[i];
        const Vec2 normal = Vec2(edge.y(), -edge.x()).normalized();
        left = clip(left, normal, normal.dot(corners[i]) - inset[i]);
    }
    return left;
}

// Half of the turn between two edges; where the outline turns right back, straight on.
Vec2 bevelNormal(const Vec2& before, const Vec2& after) {
    const Vec2 sum = before + after;
    return sum.norm() < 1e-9 ? Vec2(-before.y(), before.x()) : Vec2(sum.normalized());
}

}  // namespace

Polygon hullOf(std::vector<Vec2> points) {
    // On a grid of a nanometre corners that are meant to lie on one line along y or z do so exactly. With rounding left
    // in, a corner a hair before its neighbours in the sort is taken for one within the hull, and is lost.
    for (Vec2& point : points)
        point = Vec2(std::round(point.x() * kGridPerMm) / kGridPerMm, std::round(point.y() * kGridPerMm) / kGridPerMm);
    const auto less = [](const Vec2& a, const Vec2& b) { return a.x() < b.x() || (a.x() == b.x() && a.y() < b.y()); };
    std::sort(points.begin(), points.end(), less);
    points.erase(std::unique(points.begin(), points.end(), [](const Vec2& a, const Vec2& b) { return a == b; }),
                 points.end());
    if (points.size() < 3) return points;
    Polygon hull(2 * points.size());
    std::size_t count = 0;
    const auto add = [&](const Vec2& point, std::size_t least) {
        while (count >= least && cross(hull[count - 1] - hull[count - 2], point - hull[count - 2]) <= 0) --count;
        hull[count++] = point;
    };
    for (const Vec2& point : points) add(point, 2);
    const std::size_t lower = count + 1;
    for (auto it = points.rbegin() + 1; it != points.rend(); ++it) add(*it, lower);
    hull.resize(count - 1);
    return hull;
}

Convex2::Convex2(const Polygon& corners, const std::vector<double>& inset)
    : points_(hullOf(insetPolygon(corners, inset))) {
    addPlanes();
}

Convex2 Convex2::ofHull(Polygon hull) {
    Convex2 convex;
    convex.points_ = std::move(hull);
    convex.addPlanes();
    return convex;
}

void Convex2::addPlanes() {
    const std::size_t n = points_.size();
    if (n < 3 || signedArea_mm2(points_) < 1e-9) {
        points_.clear();
        return;
    }
    planes_.reserve(2 * n);
    for (std::size_t i = 0; i < n; ++i) {
        const Vec2 edge = points_[(i + 1) % n] - points_[i];
        const Vec2 normal = Vec2(edge.y(), -edge.x()).normalized();
        planes_.push_back({normal, normal.dot(points_[i])});
    }
    for (std::size_t i = 0; i < n; ++i) {
        if (!isSharp(i)) continue;
        const Vec2 normal = bevelNormal(planes_[i].normal, planes_[(i + 1) % n].normal);
        planes_.push_back({normal, normal.dot(points_[(i + 1) % n])});
    }
}

// At the end of an edge the outline turns by more than 60°: without a bevel a grown corner would reach over 1.15 times
// too far.
bool Convex2::isSharp(std::size_t edge) const {
    return planes_[edge].normal.dot(planes_[(edge + 1) % points_.size()].normal) <= 0.5;
}

ClipWindow Convex2::window(double margin_mm) const {
    ClipWindow window;
    windowInto(window, margin_mm);
    return window;
}

void Convex2::windowInto(ClipWindow& window, double margin_mm) const {
    window.normals.clear();
    window.offsets.clear();
    window.corners.clear();
    window.ends.clear();
    const std::size_t edges = points_.size();
    std::size_t bevel = edges;
    const auto keep = [&](std::size_t plane, const Vec2& end) {
        window.normals.push_back(planes_[plane].normal);
        window.offsets.push_back(planes_[plane].offset + margin_mm);
        window.ends.push_back(end);
    };
    for (std::size_t i = 0; i < edges; ++i) {
        keep(i, points_[(i + 1) % edges]);
        if (!isSharp(i)) continue;
        if (margin_mm > 0) keep(bevel, points_[(i + 1) % edges]);  // a bevel has length only when it is grown
        ++bevel;
    }
    const std::size_t n = window.normals.size();
    for (std::size_t i = 0; i < n; ++i) {
        const std::size_t next = (i + 1) % n;
        const Vec2& a = window.normals[i];
        const Vec2& b = window.normals[next];
        const bool straight = std::abs(cross(a, b)) < 1e-6;  // they meet anywhere
        const Vec2 corner =
            straight ? Vec2(window.ends[i] + margin_mm * a) : meet(a, window.offsets[i], b, window.offsets[next]);
        bool inside = true;
        // Shrinking may do away with an edge, and with its corners.
        for (std::size_t k = 0; k < n && margin_mm < 0; ++k)
            inside = inside && window.normals[k].dot(corner) <= window.offsets[k] + 1e-6;
        if (inside) window.corners.push_back(corner);
    }
}

Convex2 Convex2::moved(const Vec2& by) const {
    Convex2 result = *this;
    for (Vec2& point : result.points_) point += by;
    for (HalfPlane& plane : result.planes_) plane.offset += plane.normal.dot(by);
    return result;
}

// The pieces of what is left of the whole profile. Pieces of the profile itself will not do: their edges are moved in
// as whole lines, which takes away what lies between an edge and a seam that leaves it at an inner corner, though the
// outline is far from there.
std::vector<Convex2> profilePieces(const Polygon& profile, double inset_mm) {
    const std::vector<Polygon> whole = convexPieces(Region{profile, {}});
    if (whole.size() == 1) {
        Convex2 convex(whole.front(), std::vector<double>(whole.front().size(), inset_mm));
        return convex.empty() ? std::vector<Convex2>{} : std::vector<Convex2>{std::move(convex)};
    }
    std::vector<Convex2> pieces;
    for (const Region& left : grown({profile, {}}, -inset_mm)) {
        for (const Polygon& piece : convexPieces(left)) pieces.emplace_back(piece);
    }
    return pieces;
}

RadiusRange radiusRange(const std::vector<Vec2>& corners, const Vec2& centre) {
    RadiusRange range{std::numeric_limits<double>::infinity(), 0};
    bool inside = corners.size() > 2;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const Vec2 a = corners[i] - centre;
        const Vec2 edge = corners[(i + 1) % corners.size()] - corners[i];
        const double length2 = edge.squaredNorm();
        const double along = length2 > 0 ? std::clamp(-a.dot(edge) / length2, 0.0, 1.0) : 0.0;
        range.least_mm = std::min(range.least_mm, (a + along * edge).norm());
        range.most_mm = std::max(range.most_mm, a.norm());
        // A bevel's edge has no length, and what rounding makes of its direction says nothing.
        if (length2 > 1e-18 && cross(edge, -a) < 0) inside = false;
    }
    if (inside) range.least_mm = 0;
    return range;
}

namespace {

// Along some edge normal of the first.
bool apartAcrossEdge(const Convex2& a, const Convex2& b, double margin_mm) {
    for (std::size_t i = 0; i < a.size(); ++i) {
        const auto isBeyond = [&](const Vec2& p) { return a.normal(i).dot(p) - a.offset(i) > margin_mm; };
        if (std::all_of(b.points().begin(), b.points().end(), isBeyond)) return true;
    }
    return false;
}

}  // namespace

bool apart(const Convex2& a, const Convex2& b, double margin_mm) {
    return apartAcrossEdge(a, b, margin_mm) || apartAcrossEdge(b, a, margin_mm);
}

Convex2 sweptBy(const Polygon& polygon, const Vec2& by) {
    std::vector<Vec2> points = polygon;
    for (const Vec2& p : polygon) points.push_back(p + by);
    return Convex2(hullOf(std::move(points)));
}

}  // namespace tinwright
