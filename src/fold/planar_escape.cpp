// SPDX-License-Identifier: GPL-3.0-or-later
#include "planar_escape.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <deque>
#include <map>
#include <numbers>

#include "planar_sweep.h"

namespace tinwright {

namespace {

constexpr int kReach = 40;            // steps from the start in y and z
constexpr int kTilts = 20;            // steps of tilt either way
constexpr std::size_t kMaxPlaces = 1500;

using Cell = std::array<int, 3>;

PlanarPose poseOf(const Cell& cell) {
    return {cell[0] * PlanarEscape::kStep_mm, cell[1] * PlanarEscape::kStep_mm, cell[2] * PlanarEscape::kTilt_deg};
}

Polygon placed(const Polygon& polygon, const PlanarPose& pose) {
    const double angle = pose.tilt_deg * std::numbers::pi / 180.0;
    const double c = std::cos(angle);
    const double s = std::sin(angle);
    Polygon result;
    for (const Vec2& p : polygon) result.emplace_back(pose.y_mm + c * p.x() - s * p.y(), pose.z_mm + s * p.x() + c * p.y());
    return result;
}

double farthest_mm(const Polygon& polygon) {
    double most = 0;
    for (const Vec2& p : polygon) most = std::max(most, p.norm());
    return most;
}

// From the cell that ends the search back to the start, then straight out.
std::vector<PlanarPose> wayBack(const std::map<Cell, Cell>& came_from, Cell cell, const Vec2& out) {
    std::vector<PlanarPose> way;
    PlanarPose last = poseOf(cell);
    way.push_back({last.y_mm + PlanarEscape::kOut_mm * out.x(), last.z_mm + PlanarEscape::kOut_mm * out.y(), last.tilt_deg});
    while (true) {
        way.push_back(poseOf(cell));
        const Cell& before = came_from.at(cell);
        if (before == cell) break;
        cell = before;
    }
    std::reverse(way.begin(), way.end());
    return way;
}

}  // namespace

Convex2 sweptBy(const Polygon& polygon, const Vec2& by) {
    std::vector<Vec2> points = polygon;
    for (const Vec2& p : polygon) points.push_back(p + by);
    return Convex2(hullOf(std::move(points)));
}

bool apart(const Convex2& a, const Convex2& b, double margin_mm) {
    static const AngleSpan kStill(0, 0);
    AxisHint hint;
    return spanGap(a, Vec2::Zero(), b, kStill, margin_mm, hint) > margin_mm;
}

bool PlanarEscape::slideIsFree(const PlanarPose& from, const Vec2& by) const {
    return std::all_of(pairs_.begin(), pairs_.end(), [&](const Pair& pair) {
        return apart(sweptBy(placed(pair.moving, from), by), pair.still);
    });
}

// Halfway between two tilts no point is further from its place than its radius times half the turn.
bool PlanarEscape::tiltIsFree(const PlanarPose& from, double to_deg) const {
    const PlanarPose middle{from.y_mm, from.z_mm, 0.5 * (from.tilt_deg + to_deg)};
    const double half_rad = 0.5 * std::abs(to_deg - from.tilt_deg) * std::numbers::pi / 180.0;
    return std::all_of(pairs_.begin(), pairs_.end(), [&](const Pair& pair) {
        return apart(Convex2(placed(pair.moving, middle)), pair.still, farthest_mm(pair.moving) * half_rad);
    });
}

std::optional<std::vector<PlanarPose>> PlanarEscape::search(const std::vector<Vec2>& ways_out) const {
    std::map<Cell, Cell> came_from{{Cell{0, 0, 0}, Cell{0, 0, 0}}};
    std::deque<Cell> open{Cell{0, 0, 0}};
    static constexpr std::array<Cell, 6> kMoves{{{-1, 0, 0}, {0, 1, 0}, {0, 0, -1}, {0, 0, 1}, {1, 0, 0}, {0, -1, 0}}};
    while (!open.empty() && came_from.size() < kMaxPlaces) {
        const Cell cell = open.front();
        open.pop_front();
        const PlanarPose pose = poseOf(cell);
        for (const Vec2& out : ways_out) {
            if (slideIsFree(pose, kOut_mm * out)) return wayBack(came_from, cell, out);
        }
        for (const Cell& move : kMoves) {
            const Cell next{cell[0] + move[0], cell[1] + move[1], cell[2] + move[2]};
            if (std::max(std::abs(next[0]), std::abs(next[1])) > kReach || std::abs(next[2]) > kTilts) continue;
            if (came_from.contains(next)) continue;
            const bool free = move[2] != 0 ? tiltIsFree(pose, poseOf(next).tilt_deg)
                                           : slideIsFree(pose, kStep_mm * Vec2(move[0], move[1]));
            if (!free) continue;
            came_from.emplace(next, cell);
            open.push_back(next);
        }
    }
    return std::nullopt;
}

}  // namespace tinwright
