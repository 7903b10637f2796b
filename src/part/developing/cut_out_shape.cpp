// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>
#include <numbers>

#include "developing/cut_out.h"

namespace tinwright {

namespace {

// A chord stays within this of its arc.
constexpr double kChordError_mm = 0.02;

Vec2 turned(const Vec2& point, double turn_deg) {
    const SinCos turn = sinCos(Angle::degrees(turn_deg));
    return {turn.cos * point.x() - turn.sin * point.y(), turn.sin * point.x() + turn.cos * point.y()};
}

// Chords of a half circle, so that a slot's ends and a circle come out alike.
int halfCircleSteps(double radius) {
    const double step = 2.0 * std::acos(std::max(0.0, 1.0 - kChordError_mm / radius));
    return std::clamp(static_cast<int>(std::ceil(std::numbers::pi / step)), 8, 36);
}

// Half a circle about (x, 0), counter-clockwise from `start_deg`.
void addHalfCircle(Polygon& polygon, double x, double radius, double start_deg, bool with_end) {
    const int steps = halfCircleSteps(radius);
    for (int i = 0; i < steps + (with_end ? 1 : 0); ++i) {
        const SinCos at = sinCos(Angle::degrees(start_deg + 180.0 * i / steps));
        polygon.push_back({x + radius * at.cos, radius * at.sin});
    }
}

Polygon uprightShape(const CutOut& cut) {
    const double w = 0.5 * cut.width.value_mm, h = 0.5 * cut.height.value_mm;
    Polygon polygon;
    switch (cut.shape) {
        case CutOutShape::kRectangle: return {{-w, -h}, {w, -h}, {w, h}, {-w, h}};
        case CutOutShape::kCircle:
            addHalfCircle(polygon, 0, 0.5 * cut.diameter.value_mm, 0, false);
            addHalfCircle(polygon, 0, 0.5 * cut.diameter.value_mm, 180, false);
            return polygon;
        case CutOutShape::kSlot:
            addHalfCircle(polygon, w - h, h, -90, true);
            addHalfCircle(polygon, h - w, h, 90, true);
            return polygon;
        case CutOutShape::kPolygon:
            for (const OutlinePoint& point : cut.points) polygon.push_back({point.x.value_mm, point.y.value_mm});
            if (signedArea_mm2(polygon) < 0) std::reverse(polygon.begin(), polygon.end());
            return polygon;
    }
    return polygon;
}

}  // namespace

Polygon cutOutShape(const CutOut& cut) {
    Polygon polygon = uprightShape(cut);
    for (Vec2& point : polygon) point = turned(point, cut.turn_deg);
    return polygon;
}

double cutOutReach_mm(const CutOut& cut, const Vec2& direction) {
    if (cut.shape == CutOutShape::kCircle) return 0.5 * cut.diameter.value_mm;
    if (cut.shape == CutOutShape::kSlot) {
        const double half_line = 0.5 * (cut.width.value_mm - cut.height.value_mm);
        return std::abs(half_line * turned(Vec2::UnitX(), cut.turn_deg).dot(direction)) + 0.5 * cut.height.value_mm;
    }
    double reach = -1e300;
    for (const Vec2& point : cutOutShape(cut)) reach = std::max(reach, point.dot(direction));
    return reach;
}

}  // namespace tinwright
