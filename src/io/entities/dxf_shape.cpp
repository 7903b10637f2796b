// SPDX-License-Identifier: GPL-3.0-or-later
#include "entities/dxf_shape.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <tinwright/base/angle.h>

#include "entities/dxf_limits.h"

namespace tinwright {

namespace {

constexpr double kCircle_rad = 2 * std::numbers::pi;
constexpr double kRound = 1e-9;
constexpr int kLeastHalfSteps = 8;
// No radius of a part that fits the limits needs more.
constexpr int kMostSteps = 20'000;

bool isCircular(const Vec2& a, const Vec2& b) {
    const double size = a.norm() + b.norm();
    return std::abs(a.dot(b)) < kRound * size * size && std::abs(a.norm() - b.norm()) < kRound * size;
}

// The corners of an affine image of a circle are off by no more than those of a circle of this radius.
double largestRadius(const Vec2& a, const Vec2& b) {
    return isCircular(a, b) ? a.norm() : std::sqrt(a.squaredNorm() + b.squaredNorm());
}

int stepsOf(double sweep_rad, double radius_mm) {
    const double step = 2 * std::acos(std::max(0.0, 1 - kDxfChord_mm / std::max(radius_mm, kDxfChord_mm)));
    const double share = sweep_rad / std::numbers::pi;
    const int half =
        std::max(kLeastHalfSteps, static_cast<int>(std::min(std::ceil(std::numbers::pi / step), 1.0 * kMostSteps)));
    return std::clamp(static_cast<int>(std::ceil(share * half - 1e-6)), 1, kMostSteps);
}

std::vector<Vec2> arcPoints(const DxfShape& shape) {
    const Vec2& a = shape.points[1];
    const Vec2& b = shape.points[2];
    const double sweep = shape.to_rad - shape.from_rad;
    const int steps = stepsOf(sweep, largestRadius(a, b));
    std::vector<Vec2> points;
    for (int i = 0; i <= steps; ++i) {
        const SinCos at = sinCos(Angle::radians(shape.from_rad + sweep * i / steps));
        points.push_back(shape.points[0] + at.cos * a + at.sin * b);
    }
    if (sweep > kCircle_rad - kRound) points.back() = points.front();
    return points;
}

}  // namespace

Vec2 onDxfGrid(const Vec2& point) {
    const auto snap = [](double value) { return std::round(value / kDxfGrid_mm) * kDxfGrid_mm; };
    return {snap(point.x()), snap(point.y())};
}

DxfShape mapped(DxfShape shape, const Eigen::Affine2d& map) {
    if (shape.kind == DxfShape::Kind::kArc) {
        shape.points[0] = map * shape.points[0];
        shape.points[1] = map.linear() * shape.points[1];
        shape.points[2] = map.linear() * shape.points[2];
    } else {
        for (Vec2& point : shape.points) point = map * point;
    }
    return shape;
}

std::vector<Vec2> flattened(const DxfShape& shape) {
    std::vector<Vec2> points = shape.kind == DxfShape::Kind::kLine  ? shape.points
                               : shape.kind == DxfShape::Kind::kArc ? arcPoints(shape)
                                                                    : splinePoints(shape);
    std::vector<Vec2> apart;
    for (const Vec2& point : points) {
        const Vec2 snapped = onDxfGrid(point);
        if (apart.empty() || snapped != apart.back()) apart.push_back(snapped);
    }
    return apart;
}

DxfShape bulgeShape(const Vec2& from, const Vec2& to, double bulge, const DxfTag& tag) {
    DxfShape shape;
    shape.tag = tag;
    const Vec2 chord = to - from;
    if (std::abs(bulge) < kRound || chord.norm() < kDxfGrid_mm) {
        shape.points = {from, to};
        return shape;
    }
    shape.kind = DxfShape::Kind::kArc;
    // The centre lies (1 - b²) / 4b chords to the left of the middle of the chord.
    const Vec2 centre = 0.5 * (from + to) + (1 - bulge * bulge) / (4 * bulge) * Vec2(-chord.y(), chord.x());
    const Vec2 a = from - centre;
    const Vec2 left(-a.y(), a.x());
    shape.points = {centre, a, bulge > 0 ? left : Vec2(-left)};
    shape.to_rad = 4 * std::atan(std::abs(bulge));
    return shape;
}

}  // namespace tinwright
