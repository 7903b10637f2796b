// SPDX-License-Identifier: GPL-3.0-or-later
#include "edges/seam_section.h"

#include <algorithm>
#include <cmath>

namespace tinwright {

namespace {

using Quad = std::array<Vec2, 4>;

constexpr double kTogether_mm = 0.02;

double distance(const Vec2& p, const Vec2& from, const Vec2& to) {
    const Vec2 along = to - from;
    const double at = std::clamp(along.dot(p - from) / along.squaredNorm(), 0.0, 1.0);
    return (p - from - at * along).norm();
}

double cornersFrom(const Quad& a, const Quad& b) {
    double least = 1e300;
    for (const Vec2& corner : a) {
        for (std::size_t i = 0; i < 4; ++i) least = std::min(least, distance(corner, b[i], b[(i + 1) % 4]));
    }
    return least;
}

bool parted(const Vec2& axis, const Quad& a, const Quad& b) {
    double least_a = 1e300, most_a = -1e300, least_b = 1e300, most_b = -1e300;
    for (const Vec2& p : a) least_a = std::min(least_a, axis.dot(p)), most_a = std::max(most_a, axis.dot(p));
    for (const Vec2& p : b) least_b = std::min(least_b, axis.dot(p)), most_b = std::max(most_b, axis.dot(p));
    return most_a < least_b || most_b < least_a;
}

}  // namespace

std::array<Vec2, 4> SheetEnd::corners() const {
    const Vec2 back = corner - depth_mm * out, through = thickness_mm * across;
    return {back, corner, corner + through, back + through};
}

double gap_mm(const SheetEnd& a, const SheetEnd& b) {
    const Quad of_a = a.corners(), of_b = b.corners();
    for (const Vec2& axis : {a.out, a.across, b.out, b.across}) {
        if (parted(axis, of_a, of_b)) return std::min(cornersFrom(of_a, of_b), cornersFrom(of_b, of_a));
    }
    return 0;
}

double coveredShare(const SheetEnd& a, const SheetEnd& b) {
    const Quad of_b = b.corners();
    double least = 1e300, most = -1e300;
    const auto take = [&](const Vec2& p) {
        least = std::min(least, a.across.dot(p - a.corner));
        most = std::max(most, a.across.dot(p - a.corner));
    };
    for (std::size_t i = 0; i < 4; ++i) {
        const Vec2 p = of_b[i], q = of_b[(i + 1) % 4];
        const double before = a.out.dot(p - a.corner) + kTogether_mm, after = a.out.dot(q - a.corner) + kTogether_mm;
        if (before >= 0) take(p);
        if ((before < 0) != (after < 0)) take(p + before / (before - after) * (q - p));
    }
    return std::max(0.0, std::min(most, a.thickness_mm) - std::max(least, 0.0)) / a.thickness_mm;
}

}  // namespace tinwright
