// SPDX-License-Identifier: GPL-3.0-or-later
#include "convex2.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tinwright {

namespace {

constexpr double kGridPerMm = 1e6 * 1e3;

double cross(const Vec2& a, const Vec2& b) { return a.x() * b.y() - a.y() * b.x(); }

struct HalfPlane {
    Vec2 normal;
    double offset;
    bool real;
};

Vec2 meet(const HalfPlane& a, const HalfPlane& b) {
    const double det = cross(a.normal, b.normal);
    return Vec2((a.offset * b.normal.y() - b.offset * a.normal.y()) / det,
                (a.normal.x() * b.offset - b.normal.x() * a.offset) / det);
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

// A bevel where the outline turns by more than 60°: without it a grown corner would reach over 1.15 times too far.
void pushBevel(std::vector<HalfPlane>& planes, const Vec2& before, const Vec2& after, const Vec2& corner) {
    if (before.dot(after) > 0.5) return;
    const Vec2 sum = before + after;
    if (sum.norm() < 1e-9) {  // a corner that turns right back: two bevels
        const Vec2 out(-before.y(), before.x());
        planes.push_back({out, out.dot(corner), false});
        return;
    }
    const Vec2 normal = sum.normalized();
    planes.push_back({normal, normal.dot(corner), false});
}

}  // namespace

Polygon hullOf(std::vector<Vec2> points) {
    // On a grid of a nanometre corners that are meant to lie on one line along y or z do so exactly. With rounding left
    // in, a corner a hair before its neighbours in the sort is taken for one within the hull, and is lost.
    for (Vec2& point : points) point = Vec2(std::round(point.x() * kGridPerMm) / kGridPerMm, std::round(point.y() * kGridPerMm) / kGridPerMm);
    const auto less = [](const Vec2& a, const Vec2& b) { return a.x() < b.x() || (a.x() == b.x() && a.y() < b.y()); };
    std::sort(points.begin(), points.end(), less);
    points.erase(std::unique(points.begin(), points.end(),
                             [](const Vec2& a, const Vec2& b) { return a == b; }),
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

Convex2::Convex2(const Polygon& corners, const std::vector<double>& inset) {
    const Polygon polygon = hullOf(insetPolygon(corners, inset));
    if (polygon.size() < 3 || signedArea_mm2(polygon) < 1e-9) return;
    const std::size_t n = polygon.size();
    const auto normalOf = [&](std::size_t i) -> Vec2 {
        const Vec2 edge = polygon[(i + 1) % n] - polygon[i % n];
        return Vec2(edge.y(), -edge.x()).normalized();
    };
    std::vector<HalfPlane> planes;
    for (std::size_t i = 0; i < n; ++i) {
        const Vec2 normal = normalOf(i);
        planes.push_back({normal, normal.dot(polygon[i]), true});
        pushBevel(planes, normal, normalOf(i + 1), polygon[(i + 1) % n]);
        points_.resize(planes.size(), polygon[(i + 1) % n]);  // a bevel's corner is that of its edge
    }
    edges_.reserve(planes.size());
    for (const HalfPlane& plane : planes) edges_.push_back({plane.normal, plane.offset, plane.real});
}

ClipWindow Convex2::window(double margin_mm) const {
    ClipWindow result;
    std::vector<Vec2> corners;  // of this polygon, at the end of each edge that is kept
    for (std::size_t i = 0; i < size(); ++i) {
        if (!edges_[i].real && margin_mm <= 0) continue;  // a bevel has length only when it is grown
        result.normals.push_back(edges_[i].normal);
        result.offsets.push_back(edges_[i].offset + margin_mm);
        corners.push_back(points_[i]);
    }
    const std::size_t n = result.normals.size();
    for (std::size_t i = 0; i < n; ++i) {
        const std::size_t next = (i + 1) % n;
        const bool straight = std::abs(cross(result.normals[i], result.normals[next])) < 1e-6;  // they meet anywhere
        const Vec2 corner = straight ? Vec2(corners[i] + margin_mm * result.normals[i])
                                     : meet({result.normals[i], result.offsets[i], true}, {result.normals[next], result.offsets[next], true});
        bool inside = true;  // shrinking may have done away with an edge, and with its corners
        for (std::size_t k = 0; k < n; ++k) inside = inside && result.normals[k].dot(corner) <= result.offsets[k] + 1e-6;
        if (inside) result.corners.push_back(corner);
    }
    return result;
}

Convex2 Convex2::moved(const Vec2& by) const {
    Convex2 result = *this;
    for (Vec2& point : result.points_) point += by;
    for (Edge& edge : result.edges_) edge.offset += edge.normal.dot(by);
    return result;
}

Convex2 Convex2::mirrored() const {
    Convex2 result;
    const std::size_t n = size();
    const auto flip = [](const Vec2& v) { return Vec2(-v.x(), v.y()); };
    // Edge order runs the other way; corner i lies between edges i and i + 1, so corners shift by one.
    for (std::size_t k = 0; k < n; ++k) {
        const std::size_t edge = n - 1 - k;
        const std::size_t corner = (edge + n - 1) % n;
        result.edges_.push_back({flip(edges_[edge].normal), edges_[edge].offset, edges_[edge].real});
        result.points_.push_back(flip(points_[corner]));
    }
    return result;
}

std::vector<Convex2> profilePieces(const Polygon& profile, double inset_mm) {
    std::vector<Convex2> pieces;
    const auto onOutline = [&](const Vec2& a, const Vec2& b) {
        for (std::size_t i = 0; i < profile.size(); ++i) {
            const Vec2& from = profile[i];
            const Vec2 edge = profile[(i + 1) % profile.size()] - from;
            const double reach = 1e-9 * edge.norm();
            if (std::abs(cross(edge, a - from)) <= reach && std::abs(cross(edge, b - from)) <= reach) return true;
        }
        return false;
    };
    for (const Polygon& piece : convexPieces(Region{profile, {}})) {
        std::vector<double> inset;
        for (std::size_t i = 0; i < piece.size(); ++i) {
            inset.push_back(onOutline(piece[i], piece[(i + 1) % piece.size()]) ? inset_mm : 0.0);
        }
        Convex2 convex(piece, inset);
        if (!convex.empty()) pieces.push_back(std::move(convex));
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

}  // namespace tinwright
