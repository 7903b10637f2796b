// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include "entities/dxf_limits.h"
#include "entities/dxf_shape.h"

namespace tinwright {

namespace {

constexpr int kMostDegree = 10;
constexpr int kLeastDepth = 2;
constexpr int kMostDepth = 14;

// de Boor's algorithm on homogeneous points, at `t` in the knot span [knots[k], knots[k + 1]].
Vec2 pointAt(const DxfShape& s, std::size_t k, double t) {
    const auto p = static_cast<std::size_t>(s.degree);
    std::vector<Vec3> d(p + 1);
    for (std::size_t j = 0; j <= p; ++j) {
        const std::size_t i = k - p + j;
        d[j] = Vec3(s.points[i].x() * s.weights[i], s.points[i].y() * s.weights[i], s.weights[i]);
    }
    for (std::size_t r = 1; r <= p; ++r) {
        for (std::size_t j = p; j >= r; --j) {
            const double low = s.knots[k - p + j], high = s.knots[k + 1 + j - r];
            const double share = high > low ? (t - low) / (high - low) : 0;
            d[j] = (1 - share) * d[j - 1] + share * d[j];
        }
    }
    return {d[p].x() / d[p].z(), d[p].y() / d[p].z()};
}

double offChord(const Vec2& point, const Vec2& a, const Vec2& b) {
    const Vec2 d = b - a;
    const double share = d.squaredNorm() > 0 ? std::clamp(d.dot(point - a) / d.squaredNorm(), 0.0, 1.0) : 0;
    return (a + share * d - point).norm();
}

// Halved until the quarter points lie on the chord; half the tolerance, as they are only samples.
void addSpan(const DxfShape& s, std::size_t k, double from, double to, const Vec2& a, const Vec2& b, int depth,
             std::vector<Vec2>& points) {
    if (points.size() > DxfLimits::kPoints) return;
    const double middle = 0.5 * (from + to);
    const Vec2 m = pointAt(s, k, middle);
    const auto isOn = [&](double t) { return offChord(pointAt(s, k, t), a, b) < 0.5 * kDxfChord_mm; };
    const bool is_flat = depth >= kLeastDepth && offChord(m, a, b) < 0.5 * kDxfChord_mm &&
                         isOn(0.5 * (from + middle)) && isOn(0.5 * (middle + to));
    if (is_flat || depth >= kMostDepth) {
        points.push_back(b);
        return;
    }
    addSpan(s, k, from, middle, a, m, depth + 1, points);
    addSpan(s, k, middle, to, m, b, depth + 1, points);
}

}  // namespace

std::string splineComplaint(const DxfShape& s) {
    if (s.points.empty()) return "a spline without control points";
    if (s.degree < 1 || s.degree > kMostDegree) return "a spline of degree " + std::to_string(s.degree);
    if (s.points.size() < static_cast<std::size_t>(s.degree) + 1)
        return "a spline with fewer control points than its degree needs";
    if (s.knots.size() != s.points.size() + static_cast<std::size_t>(s.degree) + 1)
        return "a spline whose knots do not fit its control points";
    if (!std::is_sorted(s.knots.begin(), s.knots.end())) return "a spline whose knots do not ascend";
    if (!(s.knots[s.points.size()] > s.knots[static_cast<std::size_t>(s.degree)])) return "a spline of no length";
    if (std::any_of(s.weights.begin(), s.weights.end(), [](double w) { return !(w > 1e-6 && w < 1e6); }))
        return "a spline with weights that are not above 0";
    return {};
}

std::vector<Vec2> splinePoints(const DxfShape& s) {
    const auto p = static_cast<std::size_t>(s.degree);
    std::vector<Vec2> points{pointAt(s, p, s.knots[p])};
    for (std::size_t k = p; k < s.points.size(); ++k) {
        if (!(s.knots[k + 1] > s.knots[k])) continue;
        const Vec2 from = pointAt(s, k, s.knots[k]), to = pointAt(s, k, s.knots[k + 1]);
        addSpan(s, k, s.knots[k], s.knots[k + 1], from, to, 0, points);
    }
    return points;
}

}  // namespace tinwright
