// SPDX-License-Identifier: GPL-3.0-or-later
#include "exits/planar_escape.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>
#include <numbers>
#include <queue>

#include "kernel/swing.h"

namespace tinwright {

namespace {

constexpr double kRadians = std::numbers::pi / 180.0;
constexpr int kReach = 40;  // steps from the start in y and z
constexpr int kTilts = 20;  // steps of tilt either way
constexpr std::size_t kMaxPlaces = 6000;
constexpr int kStepsForOne = 4;  // worth going to have one pair less in the way out

using Cell = std::array<int, 3>;

// The places seen, in the order in which they were, each with the number of that from which it was reached and the
// steps from the start.
class Places {
public:
    struct Place {
        Cell cell;
        std::size_t from;
        int steps;
    };
    Places() : seen_(std::size_t{kAcross} * kAcross * (2 * kTilts + 1), false) {
        seen_[number({0, 0, 0})] = true;
        places_.push_back({{0, 0, 0}, 0, 0});
    }

    [[nodiscard]] std::size_t size() const { return places_.size(); }
    [[nodiscard]] const Place& operator[](std::size_t i) const { return places_[i]; }
    [[nodiscard]] static bool within(const Cell& cell) {
        return std::max(std::abs(cell[0]), std::abs(cell[1])) <= kReach && std::abs(cell[2]) <= kTilts;
    }
    [[nodiscard]] bool contains(const Cell& cell) const { return seen_[number(cell)]; }
    void add(const Cell& cell, std::size_t from) {
        seen_[number(cell)] = true;
        places_.push_back({cell, from, places_[from].steps + 1});
    }
    // From the start to the place.
    [[nodiscard]] std::vector<Cell> wayTo(std::size_t place) const {
        std::vector<Cell> way{places_[place].cell};
        for (; place != 0; place = places_[place].from) way.push_back(places_[places_[place].from].cell);
        std::reverse(way.begin(), way.end());
        return way;
    }

private:
    static constexpr int kAcross = 2 * kReach + 1;
    static std::size_t number(const Cell& cell) {
        const int number = ((cell[2] + kTilts) * kAcross + cell[1] + kReach) * kAcross + cell[0] + kReach;
        return static_cast<std::size_t>(number);
    }
    std::vector<bool> seen_;
    std::vector<Place> places_;
};

// To a nanometre: what differs by less is the same shape.
void append(EscapeMemo::Key& key, const Vec2& p) {
    key.push_back(std::llround(p.x() * 1e6));
    key.push_back(std::llround(p.y() * 1e6));
}

}  // namespace

namespace {

// Turns y towards z.
Vec2 turned(const Vec2& v, double cos_t, double sin_t) { return turnedUp(v, cos_t, -sin_t); }

double leastAlong(const Vec2& n, const Polygon& points) {
    double least = std::numeric_limits<double>::infinity();
    for (const Vec2& p : points) least = std::min(least, n.dot(p));
    return least;
}

}  // namespace

// All pairs at one tilt. Along every edge normal of both polygons: how far the body has to be, n . offset >= from, for
// the two to be apart. So a place costs one product an axis.
class PlanarEscape::AtTilt {
public:
    // Made again for other pairs it keeps its memory.
    void make(const std::vector<Pair>& pairs, double tilt_deg) {
        pairs_ = &pairs;
        cos_t_ = std::cos(tilt_deg * kRadians);
        sin_t_ = std::sin(tilt_deg * kRadians);
        axes_.clear();
        first_.clear();
        told_.clear();
        for (const Pair& pair : pairs) {
            first_.push_back(axes_.size());
            add(pair);
            told_.push_back(axes_[first_.back()]);
        }
        first_.push_back(axes_.size());
    }

    // The body at `offset`, and on its whole way from there by `by`: a slide is apart along an axis when the nearer of
    // its two ends is.
    bool staysApart(std::size_t pair, const Vec2& offset, const Vec2& by, double margin_mm) {
        const auto apartAlong = [&](const Axis& axis) {
            return axis.normal.dot(offset) + std::min(0.0, axis.normal.dot(by)) - axis.from > margin_mm;
        };
        if (apartAlong(told_[pair])) return true;
        for (std::size_t i = first_[pair]; i < first_[pair + 1]; ++i) {
            if (!apartAlong(axes_[i])) continue;
            told_[pair] = axes_[i];
            return true;
        }
        return by.squaredNorm() > 0 && besideSlide((*pairs_)[pair], offset, by, margin_mm);
    }

private:
    struct Axis {
        Vec2 normal;
        double from;
    };
    void add(const Pair& pair) {
        for (std::size_t i = 0; i < pair.still.size(); ++i) {
            const Vec2& n = pair.still.normal(i);
            axes_.push_back({n, pair.still.offset(i) - leastAlong(turned(n, cos_t_, -sin_t_), pair.moving.points())});
        }
        for (std::size_t i = 0; i < pair.moving.size(); ++i) {
            const Vec2 n = turned(pair.moving.normal(i), cos_t_, sin_t_);
            axes_.push_back({-n, pair.moving.offset(i) - leastAlong(n, pair.still.points())});
        }
    }
    // Along the two normals of the slide.
    [[nodiscard]] bool besideSlide(const Pair& pair, const Vec2& offset, const Vec2& by, double margin_mm) const {
        const Vec2 normal = Vec2(-by.y(), by.x()) / by.norm();
        for (const Vec2& n : {normal, Vec2(-normal)}) {
            const double moving = leastAlong(turned(n, cos_t_, -sin_t_), pair.moving.points()) + n.dot(offset);
            if (moving + leastAlong(-n, pair.still.points()) > margin_mm) return true;
        }
        return false;
    }

    const std::vector<Pair>* pairs_ = nullptr;
    double cos_t_ = 1;
    double sin_t_ = 0;
    std::vector<Axis> axes_;
    std::vector<std::size_t> first_;  // of a pair's axes
    std::vector<Axis> told_;          // the axis that told a pair apart last, side by side: most places ask no other
};

// Tables that other searches are done with: they are some megabytes, and a search may be over in a millisecond.
std::vector<std::unique_ptr<PlanarEscape::AtTilt>>& PlanarEscape::spareTilts() {
    static thread_local std::vector<std::unique_ptr<AtTilt>> spare;
    return spare;
}

PlanarEscape::PlanarEscape() = default;

PlanarEscape::~PlanarEscape() {
    for (std::unique_ptr<AtTilt>& tilt : tilts_) {
        if (tilt) spareTilts().push_back(std::move(tilt));
    }
}

void PlanarEscape::addPair(const Polygon& moving, const Convex2& still) {
    Convex2 convex(moving);
    if (convex.empty() || still.empty()) return;
    pairs_.push_back({std::move(convex), still});
}

PlanarEscape::AtTilt& PlanarEscape::atTilt(int half_steps) const {
    if (tilts_.empty()) tilts_.resize(4 * kTilts + 1);
    const int number = half_steps + 2 * kTilts;
    std::unique_ptr<AtTilt>& tilt = tilts_[static_cast<std::size_t>(number)];
    if (tilt) return *tilt;
    if (spareTilts().empty()) spareTilts().push_back(std::make_unique<AtTilt>());
    tilt = std::move(spareTilts().back());
    spareTilts().pop_back();
    tilt->make(pairs_, 0.5 * half_steps * kTilt_deg);
    return *tilt;
}

// What is in the way here is so a step further on as a rule: the pair that told last is asked first.
template <class Free>
bool PlanarEscape::allFree(std::size_t& first, Free free) const {
    if (first < pairs_.size() && !free(first)) return false;
    for (std::size_t i = 0; i < pairs_.size(); ++i) {
        if (i == first || free(i)) continue;
        first = i;
        return false;
    }
    return true;
}

bool PlanarEscape::slideIsFree(const Cell& from, const Vec2& by, std::size_t& first) const {
    AtTilt& tilt = atTilt(2 * from[2]);
    const Vec2 offset = offsetAt(from);
    return allFree(first, [&](std::size_t pair) { return tilt.staysApart(pair, offset, by, 0); });
}

Vec2 PlanarEscape::offsetAt(const Cell& cell) const {
    return tilt_offsets_[static_cast<std::size_t>(cell[2] + kTilts)] + kStep_mm * Vec2(cell[0], cell[1]);
}

PlanarPose PlanarEscape::poseOf(const Cell& cell) const {
    const Vec2 offset = offsetAt(cell);
    return {offset.x(), offset.y(), cell[2] * kTilt_deg};
}

// Between two places that differ by a tilt the way is straight in offset and tilt; no point is then further from its
// place halfway than it is from the pivot times half the turn, and a little more since the pivot strays from its place
// by less than an eighth of its radius times the turn squared.
bool PlanarEscape::tiltIsFree(const Cell& from, const Cell& to, std::size_t& first) const {
    AtTilt& middle = atTilt(from[2] + to[2]);
    const Vec2 offset = 0.5 * (offsetAt(from) + offsetAt(to));
    const double turn_rad = std::abs(to[2] - from[2]) * kTilt_deg * kRadians;
    const double stray_mm = 0.25 * pivot_.norm() * turn_rad * turn_rad;
    return allFree(first, [&](std::size_t pair) {
        return middle.staysApart(pair, offset, Vec2::Zero(), 0.5 * reaches_mm_[pair] * turn_rad + stray_mm);
    });
}

// Each pair once, in an order of the shapes alone: pieces of one section stand beside one another, and mirror images
// along x are the same here.
std::vector<PlanarEscape::Keyed> PlanarEscape::keyedPairs() const {
    std::vector<Keyed> keyed;
    for (const Pair& pair : pairs_) {
        Keyed one{{static_cast<long long>(pair.moving.size())}, &pair};
        for (const Vec2& p : pair.moving.points()) append(one.first, p);
        for (const Vec2& p : pair.still.points()) append(one.first, p);
        keyed.push_back(std::move(one));
    }
    std::stable_sort(keyed.begin(), keyed.end(), [](const Keyed& a, const Keyed& b) { return a.first < b.first; });
    keyed.erase(
        std::unique(keyed.begin(), keyed.end(), [](const Keyed& a, const Keyed& b) { return a.first == b.first; }),
        keyed.end());
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
    for (const Keyed& pair : keyed) once.pairs_.push_back(*pair.second);
    once.tiltAbout(pivot_);
    return memo.keep(std::move(key), once.search(ways_out));
}

void PlanarEscape::tiltAbout(const Vec2& pivot) {
    pivot_ = pivot;
    reaches_mm_.clear();
    for (const Pair& pair : pairs_) {
        double reach_mm = 0;
        for (const Vec2& p : pair.moving.points()) reach_mm = std::max(reach_mm, (p - pivot_).norm());
        reaches_mm_.push_back(reach_mm);
    }
    tilt_offsets_.clear();
    for (int tilt = -kTilts; tilt <= kTilts; ++tilt) {
        const double tilt_rad = tilt * kTilt_deg * kRadians;
        tilt_offsets_.emplace_back(pivot_ - turned(pivot_, std::cos(tilt_rad), std::sin(tilt_rad)));
    }
}

PlanarEscape::InWay PlanarEscape::inWayOut(const Cell& from, const std::vector<Vec2>& ways_out) const {
    AtTilt& tilt = atTilt(2 * from[2]);
    const Vec2 offset = offsetAt(from);
    InWay fewest{pairs_.size() + 1, 0};
    for (std::size_t way = 0; way < ways_out.size(); ++way) {
        std::size_t pairs = 0;
        for (std::size_t i = 0; i < pairs_.size() && pairs < fewest.pairs; ++i) {
            if (!tilt.staysApart(i, offset, kOut_mm * ways_out[way], 0)) ++pairs;
        }
        if (pairs < fewest.pairs) fewest = {pairs, way};
    }
    return fewest;
}

// Places from which less is in the way out come first, unless they are many steps further: a part that is loose under
// raised punches has more places about it than can be looked at one by one.
std::optional<std::vector<PlanarPose>> PlanarEscape::search(const std::vector<Vec2>& ways_out) const {
    static constexpr std::array<Cell, 6> kMoves{{{-1, 0, 0}, {0, 1, 0}, {0, 0, -1}, {0, 0, 1}, {1, 0, 0}, {0, -1, 0}}};
    std::array<std::size_t, kMoves.size()> in_way{};  // by move
    Places places;
    using Next = std::pair<int, std::size_t>;  // what it promises, place
    std::priority_queue<Next, std::vector<Next>, std::greater<>> open;
    InWay left = inWayOut(places[0].cell, ways_out);
    if (left.pairs > 0) open.emplace(0, 0);
    while (left.pairs > 0 && !open.empty() && places.size() < kMaxPlaces) {
        const std::size_t here = open.top().second;
        open.pop();
        const Cell cell = places[here].cell;
        for (std::size_t i = 0; i < kMoves.size() && left.pairs > 0; ++i) {
            const Cell& move = kMoves[i];
            const Cell next{cell[0] + move[0], cell[1] + move[1], cell[2] + move[2]};
            if (!Places::within(next) || places.contains(next)) continue;
            const bool free = move[2] != 0 ? tiltIsFree(cell, next, in_way[i])
                                           : slideIsFree(cell, kStep_mm * Vec2(move[0], move[1]), in_way[i]);
            if (!free) continue;
            places.add(next, here);
            left = inWayOut(next, ways_out);
            open.emplace(places[places.size() - 1].steps + kStepsForOne * static_cast<int>(left.pairs),
                         places.size() - 1);
        }
    }
    if (left.pairs > 0) return std::nullopt;
    std::vector<PlanarPose> way;
    for (const Cell& place : places.wayTo(places.size() - 1)) way.push_back(poseOf(place));
    const PlanarPose last = way.back();
    const Vec2 out = kOut_mm * ways_out[left.way];
    way.push_back({last.y_mm + out.x(), last.z_mm + out.y(), last.tilt_deg});
    return way;
}

}  // namespace tinwright
