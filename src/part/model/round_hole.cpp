// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/part/model/round_hole.h>

#include <algorithm>
#include <cmath>

#include <tinwright/geometry/cross.h>

namespace tinwright {

namespace {

constexpr std::size_t kLeastCorners = 12;
constexpr double kOnCircle_mm = 1e-3;

// Through three corners that lie well apart.
std::optional<RoundHole> circleThrough(const Vec2& a, const Vec2& b, const Vec2& c) {
    const Vec2 p = b - a, q = c - a;
    const double twice = 2.0 * cross(p, q);
    if (std::abs(twice) < 1e-9) return std::nullopt;
    const Vec2 centre((q.y() * p.squaredNorm() - p.y() * q.squaredNorm()) / twice,
                      (p.x() * q.squaredNorm() - q.x() * p.squaredNorm()) / twice);
    return RoundHole{a + centre, 2.0 * centre.norm()};
}

}  // namespace

std::optional<RoundHole> roundHole(const Polygon& polygon) {
    const std::size_t n = polygon.size();
    if (n < kLeastCorners) return std::nullopt;
    const auto circle = circleThrough(polygon[0], polygon[n / 3], polygon[2 * n / 3]);
    if (!circle) return std::nullopt;
    const double radius = 0.5 * circle->diameter_mm;
    double longest_chord = 0;
    for (std::size_t i = 0; i < n; ++i) {
        if (std::abs((polygon[i] - circle->centre).norm() - radius) > kOnCircle_mm) return std::nullopt;
        longest_chord = std::max(longest_chord, (polygon[(i + 1) % n] - polygon[i]).norm());
    }
    // A circle cut off by a chord has all its corners on it too.
    const bool is_whole = longest_chord < radius;
    return is_whole ? circle : std::nullopt;
}

}  // namespace tinwright
