// SPDX-License-Identifier: GPL-3.0-or-later
#include "exits/escape_plane.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "kernel/swing.h"

namespace tinwright {

namespace {

constexpr double kRadians = std::numbers::pi / 180.0;
constexpr double kInfinity = std::numeric_limits<double>::infinity();

double cross(const Vec2& a, const Vec2& b) { return a.x() * b.y() - a.y() * b.x(); }

// Corners of a counter-clockwise polygon from its lowest (of these the leftmost) on.
Polygon fromLowest(Polygon corners) {
    const auto lower = [](const Vec2& a, const Vec2& b) { return a.y() < b.y() || (a.y() == b.y() && a.x() < b.x()); };
    std::rotate(corners.begin(), std::min_element(corners.begin(), corners.end(), lower), corners.end());
    return corners;
}

// All sums of a point of one and a point of the other, both convex and counter-clockwise: their edges in order of
// direction.
Polygon sumOf(const Polygon& one, const Polygon& other) {
    const Polygon a = fromLowest(one);
    const Polygon b = fromLowest(other);
    Polygon sum;
    std::size_t i = 0;
    std::size_t j = 0;
    while (i < a.size() || j < b.size()) {
        sum.push_back(a[i % a.size()] + b[j % b.size()]);
        const Vec2 along_a = a[(i + 1) % a.size()] - a[i % a.size()];
        const Vec2 along_b = b[(j + 1) % b.size()] - b[j % b.size()];
        const double turn = cross(along_a, along_b);
        const bool take_a = j == b.size() || (i < a.size() && turn >= 0);
        const bool take_b = i == a.size() || (j < b.size() && turn <= 0);
        if (take_a) ++i;
        if (take_b) ++j;
    }
    return sum;
}

// Turns y towards z, about the origin.
Polygon turned(const Polygon& corners, const Vec2& pivot, double tilt_rad) {
    Polygon result;
    for (const Vec2& p : corners) result.push_back(turnedUp(p - pivot, std::cos(tilt_rad), -std::sin(tilt_rad)));
    return result;
}

double reachOf(const Polygon& corners, const Vec2& pivot) {
    double reach_mm = 0;
    for (const Vec2& p : corners) reach_mm = std::max(reach_mm, (p - pivot).norm());
    return reach_mm;
}

Polygon grown(const Polygon& corners, double by_mm) {
    return sumOf(corners, {Vec2(-by_mm, -by_mm), Vec2(by_mm, -by_mm), Vec2(by_mm, by_mm), Vec2(-by_mm, by_mm)});
}

// The body about the pivot at all tilts between the two. A point goes along an arc, which is no further from its chord
// than an eighth of its radius times the turn squared; and as the way is told, straight in offset and tilt, the pivot
// strays from its place by as much of its own distance from where offsets are told from.
Polygon sweptOver(const Polygon& body, const Vec2& pivot, double from_rad, double to_rad) {
    Polygon first = turned(body, pivot, from_rad);
    if (from_rad == to_rad) return first;
    const Polygon last = turned(body, pivot, to_rad);
    first.insert(first.end(), last.begin(), last.end());
    const double turn_rad = to_rad - from_rad;
    return grown(hullOf(std::move(first)), (reachOf(body, pivot) + pivot.norm()) * turn_rad * turn_rad / 8);
}

}  // namespace

FreeRoom common(const FreeRoom& a, const FreeRoom& b) {
    return {{std::max(a.z.lo_mm, b.z.lo_mm), std::min(a.z.hi_mm, b.z.hi_mm)},
            {std::max(a.w.lo_mm, b.w.lo_mm), std::min(a.w.hi_mm, b.w.hi_mm)}};
}

bool isOpen(const FreeRoom& room, const UpperTravel& travel) {
    constexpr double kLeast_mm = 1e-6;
    return room.z.length_mm() > kLeast_mm && room.w.length_mm() > kLeast_mm &&
           room.z.hi_mm - room.w.lo_mm > travel.down_mm + kLeast_mm &&
           room.z.lo_mm - room.w.hi_mm < travel.up_mm - kLeast_mm;
}

EscapePlane::EscapePlane(const std::vector<EscapePair>& pairs, const Vec2& pivot, double from_deg, double to_deg) {
    for (const EscapePair& pair : pairs) {
        Polygon away = sweptOver(pair.moving.points(), pivot, from_deg * kRadians, to_deg * kRadians);
        for (Vec2& p : away) p = -(p + pivot);
        Obstacle obstacle{sumOf(pair.still.points(), away), {}, {}};
        obstacle.least = obstacle.most = obstacle.sum.front();
        for (const Vec2& p : obstacle.sum) {
            obstacle.least = obstacle.least.cwiseMin(p);
            obstacle.most = obstacle.most.cwiseMax(p);
        }
        (pair.rises ? upper_ : lower_).push_back(std::move(obstacle));
    }
}

// Heights between the lowest and the highest point of the sum over the stretch.
std::optional<Span> EscapePlane::blocked(const Obstacle& obstacle, double from_mm, double to_mm) {
    if (obstacle.most.x() <= from_mm || obstacle.least.x() >= to_mm) return std::nullopt;
    Span span{kInfinity, -kInfinity};
    const auto take = [&](double z) { span = {std::min(span.lo_mm, z), std::max(span.hi_mm, z)}; };
    const Polygon& sum = obstacle.sum;
    for (std::size_t i = 0; i < sum.size(); ++i) {
        const Vec2& a = sum[i];
        const Vec2& b = sum[(i + 1) % sum.size()];
        if (a.x() >= from_mm && a.x() <= to_mm) take(a.y());
        for (const double at : {from_mm, to_mm}) {
            if ((a.x() < at && b.x() > at) || (a.x() > at && b.x() < at))
                take(a.y() + (b.y() - a.y()) * ((at - a.x()) / (b.x() - a.x())));
        }
    }
    return span.lo_mm < span.hi_mm ? std::optional(span) : std::nullopt;
}

std::vector<Span> EscapePlane::gaps(const std::vector<Obstacle>& row, double from_mm, double to_mm, Span within) {
    static thread_local std::vector<Span> walls;  // keeps its memory: this is asked many thousand times
    walls.clear();
    for (const Obstacle& obstacle : row) {
        if (const auto wall = blocked(obstacle, from_mm, to_mm)) walls.push_back(*wall);
    }
    std::sort(walls.begin(), walls.end(), [](const Span& a, const Span& b) { return a.lo_mm < b.lo_mm; });
    std::vector<Span> free;
    double from = within.lo_mm;
    for (const Span& wall : walls) {
        if (wall.lo_mm >= within.hi_mm) break;
        if (wall.lo_mm > from) free.push_back({from, wall.lo_mm});
        from = std::max(from, wall.hi_mm);
    }
    if (from < within.hi_mm) free.push_back({from, within.hi_mm});
    return free;
}

std::vector<FreeRoom> EscapePlane::rooms(double from_mm, double to_mm, const UpperTravel& travel) const {
    const std::vector<Span> over = gaps(lower_, from_mm, to_mm, {-kLimit_mm, kLimit_mm});
    const std::vector<Span> under =
        gaps(upper_, from_mm, to_mm, {-kLimit_mm - travel.up_mm, kLimit_mm - travel.down_mm});
    std::vector<FreeRoom> found;
    for (const Span& z : over) {
        for (const Span& w : under) {
            if (isOpen({z, w}, travel)) found.push_back({z, w});
        }
    }
    return found;
}

FreeRoom EscapePlane::openAbove(double from_mm, double to_mm) const {
    FreeRoom room{{-kInfinity, kInfinity}, {-kInfinity, kInfinity}};
    for (const Obstacle& obstacle : lower_) {
        if (const auto wall = blocked(obstacle, from_mm, to_mm)) room.z.lo_mm = std::max(room.z.lo_mm, wall->hi_mm);
    }
    for (const Obstacle& obstacle : upper_) {
        if (const auto wall = blocked(obstacle, from_mm, to_mm)) room.w.lo_mm = std::max(room.w.lo_mm, wall->hi_mm);
    }
    return room;
}

}  // namespace tinwright
