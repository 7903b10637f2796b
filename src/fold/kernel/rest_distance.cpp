// SPDX-License-Identifier: GPL-3.0-or-later
// Two convex solids that are apart are closest between a corner and a face, or between two edges; whatever pair of
// points is looked at, they are no further apart than those.
#include "kernel/rest_distance.h"

#include <algorithm>
#include <array>
#include <limits>

#include "kernel/solid_pair.h"

namespace tinwright {

namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();

struct Edge {
    Vec3 from;
    Vec3 along;
};

using Triangle = std::array<Vec3, 3>;

std::vector<Edge> edgesOf(const Solid& solid) {
    const std::vector<Vec3>& corners = solid.corners();
    const std::size_t n = corners.size() / 2;
    std::vector<Edge> edges;
    const auto add = [&](std::size_t from, std::size_t to) {
        edges.push_back({corners[from], corners[to] - corners[from]});
    };
    for (std::size_t i = 0; i < n; ++i) {
        const std::size_t next = (i + 1) % n;
        add(i, next);
        add(n + i, n + next);
        add(i, n + i);
    }
    return edges;
}

std::vector<Triangle> trianglesOf(const Solid& solid) {
    const std::vector<Vec3>& corners = solid.corners();
    const std::size_t n = corners.size() / 2;
    std::vector<Triangle> triangles;
    for (std::size_t i = 0; i < n; ++i) {
        const std::size_t next = (i + 1) % n;
        triangles.push_back({corners[i], corners[next], corners[n + i]});
        triangles.push_back({corners[next], corners[n + next], corners[n + i]});
        if (i == 0 || next == 0) continue;
        triangles.push_back({corners[0], corners[i], corners[next]});
        triangles.push_back({corners[n], corners[n + i], corners[n + next]});
    }
    return triangles;
}

// The place on the line that is nearest, kept on the edge; then the nearest to that on the other, and back.
double distance_mm(const Edge& a, const Edge& b) {
    const Vec3 between = a.from - b.from;
    const double aa = a.along.squaredNorm();
    const double bb = b.along.squaredNorm();
    const double ab = a.along.dot(b.along);
    const double on_a = a.along.dot(between);
    const double on_b = b.along.dot(between);
    if (aa <= 0 || bb <= 0) return kInfinity;  // its ends are other edges' ends
    const double slant = aa * bb - ab * ab;
    double s = slant > 1e-12 * aa * bb ? std::clamp((ab * on_b - on_a * bb) / slant, 0.0, 1.0) : 0.0;
    const double t = std::clamp((ab * s + on_b) / bb, 0.0, 1.0);
    s = std::clamp((ab * t - on_a) / aa, 0.0, 1.0);
    return (between + s * a.along - t * b.along).norm();
}

// Infinite when the foot of the normal is beside the triangle: then an edge is nearer.
double distance_mm(const Vec3& point, const Triangle& triangle) {
    const Vec3 normal = (triangle[1] - triangle[0]).cross(triangle[2] - triangle[0]);
    const double area = normal.norm();
    if (area <= 0) return kInfinity;
    for (std::size_t i = 0; i < 3; ++i) {
        const Vec3& from = triangle[i];
        if ((triangle[(i + 1) % 3] - from).cross(point - from).dot(normal) < 0) return kInfinity;
    }
    return std::abs(normal.dot(point - triangle[0])) / area;
}

double cornersToFaces_mm(const Solid& a, const Solid& b) {
    double least_mm = kInfinity;
    const std::vector<Triangle> triangles = trianglesOf(b);
    for (const Vec3& corner : a.corners()) {
        for (const Triangle& triangle : triangles) least_mm = std::min(least_mm, distance_mm(corner, triangle));
    }
    return least_mm;
}

}  // namespace

double restDistance_mm(const Solid& a, const Solid& b, double enough_mm) {
    const double bound_mm = restGap_mm(a, b, enough_mm);
    if (bound_mm > enough_mm) return bound_mm;
    if (bound_mm <= 0) return 0;
    double least_mm = std::min(cornersToFaces_mm(a, b), cornersToFaces_mm(b, a));
    const std::vector<Edge> others = edgesOf(b);
    for (const Edge& edge : edgesOf(a)) {
        for (const Edge& other : others) least_mm = std::min(least_mm, distance_mm(edge, other));
    }
    return least_mm;
}

}  // namespace tinwright
