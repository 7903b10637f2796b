// SPDX-License-Identifier: GPL-3.0-or-later
#include "cutting/narrow_slot.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tinwright::forming {

namespace {

// A circle fills 0.785 of the square round it, a slot more.
constexpr double kFilled = 0.7;
// Shorter ones are one drilled hole, filed square.
constexpr double kSlot = 1.5;

struct Rectangle {
    Vec2 along = Vec2::UnitX();
    Vec2 middle = Vec2::Zero();
    double length_mm = 0, width_mm = 0;
};

Rectangle rectangleAlong(const Polygon& polygon, const Vec2& along) {
    const Vec2 across(-along.y(), along.x());
    double least[2] = {1e300, 1e300}, most[2] = {-1e300, -1e300};
    for (const Vec2& p : polygon) {
        const double at[2] = {along.dot(p), across.dot(p)};
        for (int i = 0; i < 2; ++i) {
            least[i] = std::min(least[i], at[i]);
            most[i] = std::max(most[i], at[i]);
        }
    }
    const Vec2 middle = 0.5 * (least[0] + most[0]) * along + 0.5 * (least[1] + most[1]) * across;
    return {along, middle, most[0] - least[0], most[1] - least[1]};
}

/// True when a hole drilled there stays within the shape, but for a sliver.
bool staysInside(const Polygon& shape, const Vec2& centre, double diameter_mm) {
    constexpr int kChords = 24;
    constexpr double kSliver = 0.05;
    Polygon circle;
    for (int i = 0; i < kChords; ++i) {
        const double at = 2 * std::numbers::pi * i / kChords;
        circle.push_back(centre + 0.5 * diameter_mm * Vec2(std::cos(at), std::sin(at)));
    }
    double outside_mm2 = 0;
    for (const Region& left : difference({circle, {}}, {shape})) outside_mm2 += area_mm2(left);
    return outside_mm2 <= kSliver * signedArea_mm2(circle);
}

}  // namespace

// The least rectangle has a side along an edge of the polygon's hull; an edge of the polygon itself is near enough.
std::optional<NarrowSlot> slotOf(const Polygon& polygon) {
    std::optional<Rectangle> best;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const Vec2 edge = polygon[(i + 1) % polygon.size()] - polygon[i];
        if (edge.norm() < 1e-9) continue;
        const Rectangle rectangle = rectangleAlong(polygon, edge.normalized());
        if (!best || rectangle.width_mm < best->width_mm - 1e-9) best = rectangle;
    }
    if (!best || signedArea_mm2(polygon) < kFilled * best->length_mm * best->width_mm) return std::nullopt;
    const bool is_long = best->length_mm > kSlot * best->width_mm;
    const Vec2 reach = is_long ? Vec2(0.5 * (best->length_mm - best->width_mm) * best->along) : Vec2(Vec2::Zero());
    NarrowSlot slot{best->length_mm, best->width_mm, {best->middle - reach, best->middle + reach}};
    if (!staysInside(polygon, slot.ends[0], slot.width_mm) || !staysInside(polygon, slot.ends[1], slot.width_mm))
        return std::nullopt;
    const auto isAfter = [](const Vec2& a, const Vec2& b) {
        return a.x() > b.x() + 1e-9 || (a.x() > b.x() - 1e-9 && a.y() > b.y());
    };
    if (isAfter(slot.ends[0], slot.ends[1])) std::swap(slot.ends[0], slot.ends[1]);
    return slot;
}

}  // namespace tinwright::forming
