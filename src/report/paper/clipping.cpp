// SPDX-License-Identifier: GPL-3.0-or-later
#include "paper/clipping.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace tinwright::report {
namespace {

/// A side of a box: points with `at` >= 0 are inside.
struct Side {
    Vec2 normal;
    double offset;
    [[nodiscard]] double at(const Vec2& point) const { return normal.dot(point) - offset; }
};

std::array<Side, 4> sides(const Box& box) {
    return {Side{Vec2(1, 0), box.least.x()}, Side{Vec2(-1, 0), -box.most.x()}, Side{Vec2(0, 1), box.least.y()},
            Side{Vec2(0, -1), -box.most.y()}};
}

/// The stretch of a line that lies in the box, as parameters; empty when from > to.
std::pair<double, double> stretch(const Vec2& from, const Vec2& to, const Box& box) {
    double enter = 0;
    double leave = 1;
    for (const Side& side : sides(box)) {
        const double a = side.at(from);
        const double b = side.at(to);
        if (a < 0 && b < 0) return {1, 0};
        if (a < 0) enter = std::max(enter, a / (a - b));
        if (b < 0) leave = std::min(leave, a / (a - b));
    }
    return {enter, leave};
}

void crossings(const Polygon& ring, double spacing_mm, double slope, double level, std::vector<double>& at) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2& a = ring[i];
        const Vec2& b = ring[(i + 1) % ring.size()];
        const double la = (a.y() - slope * a.x()) / spacing_mm - level;
        const double lb = (b.y() - slope * b.x()) / spacing_mm - level;
        if ((la < 0) == (lb < 0)) continue;
        at.push_back(a.x() + (b.x() - a.x()) * la / (la - lb));
    }
}

}  // namespace

std::vector<std::vector<Vec2>> clippedRuns(const std::vector<Vec2>& points, bool closed, const Box& box) {
    std::vector<std::vector<Vec2>> runs;
    const std::size_t count = points.size() + (closed && points.size() > 1 ? 1 : 0);
    bool open = false;
    for (std::size_t i = 1; i < count; ++i) {
        const Vec2& from = points[i - 1];
        const Vec2& to = points[i % points.size()];
        const auto [enter, leave] = stretch(from, to, box);
        if (enter > leave) {
            open = false;
            continue;
        }
        if (!open || enter > 0) runs.push_back({from + enter * (to - from)});
        runs.back().push_back(from + leave * (to - from));
        open = leave >= 1;
    }
    return runs;
}

std::vector<Vec2> clippedPolygon(const std::vector<Vec2>& ring, const Box& box) {
    std::vector<Vec2> inside = ring;
    for (const Side& side : sides(box)) {
        std::vector<Vec2> kept;
        for (std::size_t i = 0; i < inside.size(); ++i) {
            const Vec2& from = inside[i];
            const Vec2& to = inside[(i + 1) % inside.size()];
            const double a = side.at(from);
            const double b = side.at(to);
            if (a >= 0) kept.push_back(from);
            if ((a < 0) != (b < 0)) kept.emplace_back(from + (to - from) * (a / (a - b)));
        }
        inside = std::move(kept);
    }
    return inside.size() < 3 ? std::vector<Vec2>{} : inside;
}

std::vector<std::pair<Vec2, Vec2>> hatchLines(const Region& region, double spacing_mm, double slope, const Box& box) {
    std::vector<std::pair<Vec2, Vec2>> lines;
    const double step = spacing_mm * std::sqrt(2.0);
    double least = 1e300;
    double most = -1e300;
    for (const Vec2& corner :
         {box.least, box.most, Vec2(box.least.x(), box.most.y()), Vec2(box.most.x(), box.least.y())}) {
        least = std::min(least, (corner.y() - slope * corner.x()) / step);
        most = std::max(most, (corner.y() - slope * corner.x()) / step);
    }
    for (double level = std::ceil(least); level <= most; level += 1) {
        std::vector<double> at;
        crossings(region.outline, step, slope, level, at);
        for (const Polygon& hole : region.holes) crossings(hole, step, slope, level, at);
        std::sort(at.begin(), at.end());
        for (std::size_t i = 0; i + 1 < at.size(); i += 2) {
            const Vec2 from(at[i], slope * at[i] + level * step);
            const Vec2 to(at[i + 1], slope * at[i + 1] + level * step);
            const auto [enter, leave] = stretch(from, to, box);
            if (enter < leave) lines.emplace_back(from + enter * (to - from), from + leave * (to - from));
        }
    }
    return lines;
}

}  // namespace tinwright::report
