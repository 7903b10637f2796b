// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/slab_cut.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <tinwright/geometry/cross.h>

namespace tinwright::report {
namespace {

constexpr double kSpeck_mm2 = 1e-6;

/// Convex hull, counter-clockwise (Andrew's monotone chain).
Polygon hull(std::vector<Vec2> points) {
    std::sort(points.begin(), points.end(),
              [](const Vec2& a, const Vec2& b) { return a.x() != b.x() ? a.x() < b.x() : a.y() < b.y(); });
    if (points.size() < 3) return {};
    Polygon ring;
    for (int pass = 0; pass < 2; ++pass) {
        const std::size_t start = ring.size();
        for (const Vec2& point : points) {
            while (ring.size() >= start + 2 &&
                   cross(ring.back() - ring[ring.size() - 2], point - ring[ring.size() - 2]) <= 1e-12)
                ring.pop_back();
            ring.push_back(point);
        }
        ring.pop_back();
        std::reverse(points.begin(), points.end());
    }
    return ring.size() < 3 ? Polygon{} : ring;
}

using Edge = std::array<Vec3, 2>;

std::vector<Edge> edgesOf(const Slab& slab) {
    std::vector<Edge> edges;
    const std::size_t n = slab.lower.size();
    for (std::size_t i = 0; i < n; ++i) {
        edges.push_back({slab.lower[i], slab.lower[(i + 1) % n]});
        edges.push_back({slab.upper[i], slab.upper[(i + 1) % n]});
        edges.push_back({slab.lower[i], slab.upper[i]});
    }
    return edges;
}

std::vector<std::vector<Vec3>> facesOf(const Slab& slab) {
    std::vector<std::vector<Vec3>> faces{slab.lower, slab.upper};
    const std::size_t n = slab.lower.size();
    for (std::size_t i = 0; i < n; ++i)
        faces.push_back({slab.lower[i], slab.lower[(i + 1) % n], slab.upper[(i + 1) % n], slab.upper[i]});
    return faces;
}

/// Nearest points of two segments (Ericson, Real-Time Collision Detection, 5.1.9).
NearestPoints segmentGap(const Edge& p, const Edge& q) {
    const Vec3 d1 = p[1] - p[0];
    const Vec3 d2 = q[1] - q[0];
    const Vec3 r = p[0] - q[0];
    const double a = d1.squaredNorm();
    const double e = d2.squaredNorm();
    const double b = d1.dot(d2);
    const double c = d1.dot(r);
    const double f = d2.dot(r);
    const double denominator = a * e - b * b;
    double s = denominator > 1e-12 * a * e ? std::clamp((b * f - c * e) / denominator, 0.0, 1.0) : 0.0;
    double t = e > 0 ? (b * s + f) / e : 0.0;
    if (t < 0 || t > 1) {
        t = std::clamp(t, 0.0, 1.0);
        s = a > 0 ? std::clamp((b * t - c) / a, 0.0, 1.0) : 0.0;
    }
    NearestPoints near{0, p[0] + s * d1, q[0] + t * d2};
    near.gap_mm = (near.a - near.b).norm();
    return near;
}

/// A point over a flat convex face: its foot, when it falls into the face.
std::optional<Vec3> footIn(const std::vector<Vec3>& face, const Vec3& point) {
    const Vec3 normal = (face[1] - face[0]).cross(face[2] - face[1]).normalized();
    const Vec3 foot = point - normal.dot(point - face[0]) * normal;
    for (std::size_t i = 0; i < face.size(); ++i) {
        const Vec3& from = face[i];
        const Vec3& to = face[(i + 1) % face.size()];
        if (normal.dot((to - from).cross(foot - from)) < 0) return std::nullopt;
    }
    return foot;
}

struct Bounds {
    Vec3 least;
    Vec3 most;
};

Bounds boundsOf(const Slab& slab) {
    Bounds bounds{slab.lower.front(), slab.lower.front()};
    for (const auto* ring : {&slab.lower, &slab.upper}) {
        for (const Vec3& point : *ring) bounds = {bounds.least.cwiseMin(point), bounds.most.cwiseMax(point)};
    }
    return bounds;
}

double apart_mm(const Bounds& a, const Bounds& b) {
    return (a.least - b.most).cwiseMax(b.least - a.most).cwiseMax(0.0).norm();
}

void pointToFaces(const Slab& points, const Slab& faces, bool swapped, NearestPoints& best) {
    for (const std::vector<Vec3>& face : facesOf(faces)) {
        for (const auto* ring : {&points.lower, &points.upper}) {
            for (const Vec3& point : *ring) {
                const std::optional<Vec3> foot = footIn(face, point);
                if (!foot) continue;
                const double gap = (point - *foot).norm();
                if (gap < best.gap_mm)
                    best = swapped ? NearestPoints{gap, *foot, point} : NearestPoints{gap, point, *foot};
            }
        }
    }
}

void nearer(const Slab& a, const Slab& b, NearestPoints& best) {
    for (const Edge& p : edgesOf(a)) {
        for (const Edge& q : edgesOf(b)) {
            const NearestPoints near = segmentGap(p, q);
            if (near.gap_mm < best.gap_mm) best = near;
        }
    }
    pointToFaces(a, b, false, best);
    pointToFaces(b, a, true, best);
}

void spanOn(const Slab& slab, const Vec3& axis, double& least, double& most) {
    least = most = axis.dot(slab.lower.front());
    for (const auto* ring : {&slab.lower, &slab.upper}) {
        for (const Vec3& point : *ring) {
            least = std::min(least, axis.dot(point));
            most = std::max(most, axis.dot(point));
        }
    }
}

bool separates(const Vec3& axis, const Slab& a, const Slab& b) {
    if (axis.squaredNorm() < 1e-12) return false;
    double a_least = 0, a_most = 0, b_least = 0, b_most = 0;
    spanOn(a, axis, a_least, a_most);
    spanOn(b, axis, b_least, b_most);
    return a_most <= b_least || b_most <= a_least;
}

/// Separating axes of two convex bodies: normals of faces, and crossings of edges.
bool overlap(const Slab& a, const Slab& b) {
    for (const Slab* slab : {&a, &b}) {
        for (const std::vector<Vec3>& face : facesOf(*slab)) {
            if (separates((face[1] - face[0]).cross(face[2] - face[1]), a, b)) return false;
        }
    }
    for (const Edge& p : edgesOf(a)) {
        for (const Edge& q : edgesOf(b)) {
            if (separates((p[1] - p[0]).cross(q[1] - q[0]), a, b)) return false;
        }
    }
    return true;
}

}  // namespace

Polygon cutAcross(const Slab& slab, double x_mm) {
    std::vector<Vec2> points;
    for (const Edge& edge : edgesOf(slab)) {
        const double a = edge[0].x() - x_mm;
        const double b = edge[1].x() - x_mm;
        if ((a < 0) == (b < 0)) continue;
        const Vec3 p = edge[0] + (edge[1] - edge[0]) * (a / (a - b));
        points.emplace_back(p.y(), p.z());
    }
    return hull(std::move(points));
}

std::vector<Polygon> cutAcross(const std::vector<PartBody>& bodies, bool moving, double x_mm) {
    std::vector<Polygon> cuts;
    for (const PartBody& body : bodies) {
        if (body.moving != moving) continue;
        for (const Slab& slab : body.slabs) {
            Polygon cut = cutAcross(slab, x_mm);
            if (!cut.empty() && signedArea_mm2(cut) > kSpeck_mm2) cuts.push_back(std::move(cut));
        }
    }
    return cuts;
}

std::vector<Polygon> seenAlong(const std::vector<PartBody>& bodies) {
    std::vector<Polygon> seen;
    for (const PartBody& body : bodies) {
        for (const Slab& slab : body.slabs) {
            std::vector<Vec2> points;
            for (const auto* ring : {&slab.lower, &slab.upper}) {
                for (const Vec3& point : *ring) points.emplace_back(point.y(), point.z());
            }
            Polygon outline = hull(std::move(points));
            if (!outline.empty() && signedArea_mm2(outline) > kSpeck_mm2) seen.push_back(std::move(outline));
        }
    }
    return seen;
}

std::optional<NearestPoints> nearestPoints(const std::vector<Slab>& a, const std::vector<Slab>& b) {
    NearestPoints best{1e300, Vec3::Zero(), Vec3::Zero()};
    std::vector<Bounds> bounds_b;
    for (const Slab& slab : b) bounds_b.push_back(boundsOf(slab));
    for (const Slab& one : a) {
        const Bounds bounds = boundsOf(one);
        for (std::size_t j = 0; j < b.size(); ++j) {
            const double apart = apart_mm(bounds, bounds_b[j]);
            if (apart <= 0 && overlap(one, b[j])) return std::nullopt;
            if (apart < best.gap_mm) nearer(one, b[j], best);
        }
    }
    constexpr double kTouching_mm = 1e-6;
    if (best.gap_mm > 1e299 || best.gap_mm < kTouching_mm) return std::nullopt;
    return best;
}

}  // namespace tinwright::report
