// SPDX-License-Identifier: GPL-3.0-or-later
#include "exits/escape_plane.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <utility>

#include <tinwright/geometry/cross.h>

#include "kernel/swing.h"

namespace tinwright {

namespace {

constexpr double kRadians = std::numbers::pi / 180.0;
constexpr double kInfinity = std::numeric_limits<double>::infinity();

// The lowest corner, of these the leftmost.
std::size_t lowestOf(const Polygon& corners) {
    std::size_t lowest = 0;
    for (std::size_t i = 1; i < corners.size(); ++i) {
        const Vec2& p = corners[i];
        const Vec2& known = corners[lowest];
        if (p.y() < known.y() || (p.y() == known.y() && p.x() < known.x())) lowest = i;
    }
    return lowest;
}

// The corners of a counter-clockwise polygon, one after the other from its lowest on.
class Corners {
public:
    explicit Corners(const Polygon& corners) : corners_(corners), at_(lowestOf(corners)) {}
    [[nodiscard]] bool done() const { return passed_ == corners_.size(); }
    [[nodiscard]] const Vec2& here() const { return corners_[at_]; }
    [[nodiscard]] Vec2 along() const { return corners_[next()] - corners_[at_]; }
    void step() {
        at_ = next();
        ++passed_;
    }

private:
    [[nodiscard]] std::size_t next() const { return at_ + 1 == corners_.size() ? 0 : at_ + 1; }
    const Polygon& corners_;
    std::size_t at_;
    std::size_t passed_ = 0;
};

// All sums of a point of one and a point of the other, both convex and counter-clockwise: their edges in order of
// direction.
Polygon sumOf(const Polygon& one, const Polygon& other) {
    Corners a(one);
    Corners b(other);
    Polygon sum;
    sum.reserve(one.size() + other.size());
    while (!a.done() || !b.done()) {
        sum.push_back(a.here() + b.here());
        const double turn = cross(a.along(), b.along());
        const bool take_a = b.done() || (!a.done() && turn >= 0);
        const bool take_b = a.done() || (!b.done() && turn <= 0);
        if (take_a) a.step();
        if (take_b) b.step();
    }
    return sum;
}

// Turns y towards z, about the origin.
Polygon turned(const Polygon& corners, const Vec2& pivot, double tilt_rad) {
    const double cos_tilt = std::cos(tilt_rad);
    const double sin_tilt = std::sin(tilt_rad);
    Polygon result;
    result.reserve(2 * corners.size());  // the other end of a turn is added
    for (const Vec2& p : corners) result.push_back(turnedUp(p - pivot, cos_tilt, -sin_tilt));
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
    Polygon away;
    const Polygon* swept = nullptr;  // what that is made of: the same shape over several pairs, as a rule
    for (const EscapePair& pair : pairs) {
        const Polygon& body = pair.moving.points();
        if (swept == nullptr || *swept != body) {
            away = sweptOver(body, pivot, from_deg * kRadians, to_deg * kRadians);
            for (Vec2& p : away) p = -(p + pivot);
            swept = &body;
        }
        Obstacle obstacle(sumOf(pair.still.points(), away));
        (pair.rises ? upper_ : lower_).push_back(std::move(obstacle));
    }
}

EscapePlane::Obstacle::Obstacle(Polygon corners) : sum(std::move(corners)) {
    for (std::size_t i = 1; i < sum.size(); ++i) {
        const Vec2& p = sum[i];
        const auto isFurther = [&](const Vec2& known, double x_sign, double y_sign) {
            return p.x() != known.x() ? x_sign * p.x() > x_sign * known.x() : y_sign * p.y() > y_sign * known.y();
        };
        if (isFurther(sum[under_left], -1, -1)) under_left = i;
        if (isFurther(sum[under_right], 1, -1)) under_right = i;
        if (isFurther(sum[over_right], 1, 1)) over_right = i;
        if (isFurther(sum[over_left], -1, 1)) over_left = i;
        if (p.y() > sum[highest].y()) highest = i;
    }
}

namespace {

// z at a y of a chain, which goes from corner `from` on by `way`, +1 or -1 round the polygon, to greater y.
double heightAt(const Polygon& sum, std::size_t from, int way, double y_mm) {
    const auto next = [&](std::size_t i) {
        if (way > 0) return i + 1 == sum.size() ? 0 : i + 1;
        return i == 0 ? sum.size() - 1 : i - 1;
    };
    std::size_t a = from;
    std::size_t b = next(a);
    while (sum[b].x() < y_mm) {
        a = b;
        b = next(b);
        if (b == from) return sum[a].y();  // y is past the polygon by a rounding
    }
    const Vec2& p = sum[a];
    const Vec2& q = sum[b];
    return q.x() > p.x() ? p.y() + (q.y() - p.y()) * ((y_mm - p.x()) / (q.x() - p.x())) : q.y();
}

}  // namespace

// Heights between the lowest and the highest point of the sum over the stretch: underside and top only fall, and only
// rise, towards theirs.
std::optional<Span> EscapePlane::blocked(const Obstacle& obstacle, double from_mm, double to_mm) {
    const Polygon& sum = obstacle.sum;
    const double left_mm = sum[obstacle.under_left].x();
    const double right_mm = sum[obstacle.under_right].x();
    if (right_mm <= from_mm || left_mm >= to_mm) return std::nullopt;
    const double near_mm = std::max(from_mm, left_mm);
    const double far_mm = std::min(to_mm, right_mm);
    const auto most = [&](std::size_t peak, std::size_t left, int way) {
        const double peak_mm = sum[peak].x();
        if (peak_mm >= near_mm && peak_mm <= far_mm) return sum[peak].y();
        return heightAt(sum, left, way, peak_mm < near_mm ? near_mm : far_mm);
    };
    const Span span{most(0, obstacle.under_left, 1), most(obstacle.highest, obstacle.over_left, -1)};
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
