// SPDX-License-Identifier: GPL-3.0-or-later
#include "planar_escape.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <deque>
#include <limits>
#include <map>
#include <numbers>

#include "planar_sweep.h"

namespace tinwright {

namespace {

constexpr double kRadians = std::numbers::pi / 180.0;
constexpr int kReach = 40;            // steps from the start in y and z
constexpr int kTilts = 20;            // steps of tilt either way
constexpr std::size_t kMaxPlaces = 6000;

using Cell = std::array<int, 3>;

// From the cell that ends the search back to the start.
std::vector<Cell> wayBack(const std::map<Cell, Cell>& came_from, Cell cell) {
    std::vector<Cell> way{cell};
    while (came_from.at(cell) != cell) {
        cell = came_from.at(cell);
        way.push_back(cell);
    }
    std::reverse(way.begin(), way.end());
    return way;
}

// To a nanometre: what differs by less is the same shape.
void append(EscapeMemo::Key& key, const Vec2& p) {
    key.push_back(std::llround(p.x() * 1e6));
    key.push_back(std::llround(p.y() * 1e6));
}

}  // namespace

Convex2 sweptBy(const Polygon& polygon, const Vec2& by) {
    std::vector<Vec2> points = polygon;
    for (const Vec2& p : polygon) points.push_back(p + by);
    return Convex2(hullOf(std::move(points)));
}

bool apart(const Convex2& a, const Convex2& b, double margin_mm) {
    AxisHint hint;
    return spanGap(a, Placing{}, b, Vec2::Zero(), margin_mm, hint) > margin_mm;
}

// Where the moving polygon is: p goes to offset + T p.
struct PlanarEscape::Tilted {
    explicit Tilted(const PlanarPose& pose)
        : offset(pose.y_mm, pose.z_mm), cos_t(std::cos(pose.tilt_deg * kRadians)), sin_t(std::sin(pose.tilt_deg * kRadians)) {}
    [[nodiscard]] Vec2 turned(const Vec2& v) const { return Vec2(cos_t * v.x() - sin_t * v.y(), sin_t * v.x() + cos_t * v.y()); }
    [[nodiscard]] Vec2 turnedBack(const Vec2& v) const { return Vec2(cos_t * v.x() + sin_t * v.y(), -sin_t * v.x() + cos_t * v.y()); }
    Vec2 offset;
    double cos_t;
    double sin_t;
};

void PlanarEscape::addPair(const Polygon& moving, const Convex2& still) {
    Convex2 convex(moving);
    if (convex.empty() || still.empty()) return;
    pairs_.push_back({std::move(convex), still, 0});
}

// Axes: the edge normals of both, then the two normals of the slide. A slide by `by` is apart along an axis when the
// nearer of its two ends is.
bool PlanarEscape::apartAlong(const Pair& pair, const Tilted& at, const Vec2& by, std::size_t axis, double margin_mm) {
    const std::size_t still = pair.still.size();
    const std::size_t moving = pair.moving.size();
    if (axis >= still && axis < still + moving) {
        const std::size_t i = axis - still;
        const Vec2 n = at.turned(pair.moving.normal(i));
        double least = std::numeric_limits<double>::infinity();
        for (const Vec2& q : pair.still.points()) least = std::min(least, n.dot(q));
        return least - pair.moving.offset(i) - n.dot(at.offset) - std::max(0.0, n.dot(by)) > margin_mm;
    }
    Vec2 n;
    double reach = 0;
    if (axis < still) {
        n = pair.still.normal(axis);
        reach = pair.still.offset(axis);
    } else {
        n = Vec2(-by.y(), by.x()) / by.norm();
        if (axis == still + moving) n = -n;
        reach = -std::numeric_limits<double>::infinity();
        for (const Vec2& q : pair.still.points()) reach = std::max(reach, n.dot(q));
    }
    const Vec2 back = at.turnedBack(n);
    double least = std::numeric_limits<double>::infinity();
    for (const Vec2& p : pair.moving.points()) least = std::min(least, back.dot(p));
    return least + n.dot(at.offset) + std::min(0.0, n.dot(by)) - reach > margin_mm;
}

bool PlanarEscape::staysApart(const Pair& pair, const Tilted& at, const Vec2& by, double margin_mm) {
    const std::size_t axes = pair.still.size() + pair.moving.size() + (by.squaredNorm() > 0 ? 2 : 0);
    if (pair.hint < axes && apartAlong(pair, at, by, pair.hint, margin_mm)) return true;
    for (std::size_t axis = 0; axis < axes; ++axis) {
        if (axis == pair.hint || !apartAlong(pair, at, by, axis, margin_mm)) continue;
        pair.hint = axis;
        return true;
    }
    return false;
}

bool PlanarEscape::slideIsFree(const PlanarPose& from, const Vec2& by) const {
    const Tilted at(from);
    return std::all_of(pairs_.begin(), pairs_.end(), [&](const Pair& pair) { return staysApart(pair, at, by, 0); });
}

// Tilted about the pivot, which stays where it is.
PlanarPose PlanarEscape::poseOf(const Cell& cell) const {
    const PlanarPose tilt{0, 0, cell[2] * kTilt_deg};
    const Vec2 offset = pivot_ + kStep_mm * Vec2(cell[0], cell[1]) - Tilted(tilt).turned(pivot_);
    return {offset.x(), offset.y(), tilt.tilt_deg};
}

// Between two places that differ by a tilt the way is straight in offset and tilt; no point is then further from its
// place halfway than it is from the pivot times half the turn, and a little more since the pivot strays from its place by
// less than an eighth of its radius times the turn squared.
bool PlanarEscape::tiltIsFree(const PlanarPose& from, const PlanarPose& to) const {
    const PlanarPose halfway{0.5 * (from.y_mm + to.y_mm), 0.5 * (from.z_mm + to.z_mm), 0.5 * (from.tilt_deg + to.tilt_deg)};
    const Tilted middle(halfway);
    const double turn_rad = std::abs(to.tilt_deg - from.tilt_deg) * kRadians;
    const double stray_mm = 0.25 * pivot_.norm() * turn_rad * turn_rad;
    return std::all_of(pairs_.begin(), pairs_.end(), [&](const Pair& pair) {
        double reach = 0;
        for (const Vec2& p : pair.moving.points()) reach = std::max(reach, (p - pivot_).norm());
        return staysApart(pair, middle, Vec2::Zero(), 0.5 * reach * turn_rad + stray_mm);
    });
}

// Each pair once, in an order of the shapes alone: pieces of one section stand beside one another, and mirror images along x are the same here.
std::vector<PlanarEscape::Keyed> PlanarEscape::keyedPairs() const {
    std::vector<Keyed> keyed;
    for (const Pair& pair : pairs_) {
        Keyed one{{static_cast<long long>(pair.moving.size())}, &pair};
        for (const Vec2& p : pair.moving.points()) append(one.first, p);
        for (const Vec2& p : pair.still.points()) append(one.first, p);
        keyed.push_back(std::move(one));
    }
    std::stable_sort(keyed.begin(), keyed.end(), [](const Keyed& a, const Keyed& b) { return a.first < b.first; });
    keyed.erase(std::unique(keyed.begin(), keyed.end(), [](const Keyed& a, const Keyed& b) { return a.first == b.first; }), keyed.end());
    return keyed;
}

std::optional<std::vector<PlanarPose>> PlanarEscape::search(const std::vector<Vec2>& ways_out, EscapeMemo& memo) const {
    const std::vector<Keyed> keyed = keyedPairs();
    EscapeMemo::Key key;
    append(key, pivot_);
    for (const Vec2& out : ways_out) append(key, out);
    for (const Keyed& pair : keyed) key.insert(key.end(), pair.first.begin(), pair.first.end());
    if (const EscapeMemo::Way* known = memo.find(key)) return *known;
    PlanarEscape once;
    once.pivot_ = pivot_;
    for (const Keyed& pair : keyed) once.pairs_.push_back(*pair.second);
    return memo.keep(std::move(key), once.search(ways_out));
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
            if (!slideIsFree(pose, kOut_mm * out)) continue;
            std::vector<PlanarPose> way;
            for (const Cell& place : wayBack(came_from, cell)) way.push_back(poseOf(place));
            way.push_back({pose.y_mm + kOut_mm * out.x(), pose.z_mm + kOut_mm * out.y(), pose.tilt_deg});
            return way;
        }
        for (const Cell& move : kMoves) {
            const Cell next{cell[0] + move[0], cell[1] + move[1], cell[2] + move[2]};
            if (std::max(std::abs(next[0]), std::abs(next[1])) > kReach || std::abs(next[2]) > kTilts) continue;
            if (came_from.contains(next)) continue;
            const bool free = move[2] != 0 ? tiltIsFree(pose, poseOf(next)) : slideIsFree(pose, kStep_mm * Vec2(move[0], move[1]));
            if (!free) continue;
            came_from.emplace(next, cell);
            open.push_back(next);
        }
    }
    return std::nullopt;
}

}  // namespace tinwright
