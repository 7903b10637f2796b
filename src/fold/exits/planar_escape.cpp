// SPDX-License-Identifier: GPL-3.0-or-later
#include "exits/planar_escape.h"

#include <algorithm>
#include <cmath>

#include "exits/escape_search.h"
#include "exits/escape_way.h"

namespace tinwright {

namespace {

// What is free by some millimetres is found in the coarse one. Where less is free it is so near the start as a rule,
// where the part is still between the tools.
constexpr EscapeGrid kCoarse{{5, 0, 5, 200}, {3, 0, 3, 60}, 6000};
constexpr EscapeGrid kFine{{1, 20, 5, 200}, {0.5, 12, 3, 60}, 6000};

// To a nanometre: what differs by less is the same shape.
void append(EscapeMemo::Key& key, const Vec2& p) {
    key.push_back(std::llround(p.x() * 1e6));
    key.push_back(std::llround(p.y() * 1e6));
}

}  // namespace

namespace {

bool covers(const Convex2& large, const Convex2& small) {
    constexpr double kSame_mm = 1e-9;
    return std::all_of(small.points().begin(), small.points().end(), [&](const Vec2& p) {
        for (std::size_t i = 0; i < large.size(); ++i) {
            if (large.normal(i).dot(p) > large.offset(i) + kSame_mm) return false;
        }
        return true;
    });
}

}  // namespace

// What lies within other shapes of the same two sides keeps from nothing that these do not keep from: of walls seen
// along the bend most lie behind one another. No two are the same.
std::vector<const EscapePair*> PlanarEscape::withoutCovered(const std::vector<Keyed>& keyed) {
    std::vector<const EscapePair*> kept;
    for (const Keyed& one : keyed) {
        const EscapePair& pair = *one.second;
        const bool is_covered = std::any_of(keyed.begin(), keyed.end(), [&](const Keyed& other) {
            const EscapePair& larger = *other.second;
            return &larger != &pair && larger.rises == pair.rises && covers(larger.still, pair.still) &&
                   covers(larger.moving, pair.moving) &&
                   !(covers(pair.still, larger.still) && covers(pair.moving, larger.moving));
        });
        if (!is_covered) kept.push_back(&pair);
    }
    return kept;
}

void PlanarEscape::addPair(const Polygon& moving, const Convex2& still, bool rises) {
    Convex2 convex(moving);
    if (convex.empty() || still.empty()) return;
    pairs_.push_back({std::move(convex), still, rises});
}

std::optional<std::vector<PlanarPose>> PlanarEscape::search(bool may_go_up) const {
    for (const EscapeGrid& grid : {kCoarse, kFine}) {
        EscapeSearch search(pairs_, pivot_, travel_, grid);
        if (const auto places = search.wayOut(may_go_up)) return straightened(pairs_, pivot_, *places);
    }
    return std::nullopt;
}

// Each pair once, in an order of the shapes alone: pieces of one section stand beside one another, and mirror images
// along x are the same here.
std::vector<PlanarEscape::Keyed> PlanarEscape::keyedPairs() const {
    std::vector<Keyed> keyed;
    for (const EscapePair& pair : pairs_) {
        Keyed one{{pair.rises ? 1 : 0, static_cast<long long>(pair.moving.points().size())}, &pair};
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

std::optional<std::vector<PlanarPose>> PlanarEscape::search(bool may_go_up, EscapeMemo& memo) const {
    const std::vector<Keyed> keyed = keyedPairs();
    EscapeMemo::Key key{may_go_up ? 1 : 0};
    append(key, pivot_);
    append(key, Vec2(travel_.down_mm, travel_.up_mm));
    for (const Keyed& pair : keyed) key.insert(key.end(), pair.first.begin(), pair.first.end());
    if (const EscapeMemo::Way* known = memo.find(key)) return *known;
    PlanarEscape once;
    for (const EscapePair* pair : withoutCovered(keyed)) once.pairs_.push_back(*pair);
    once.pivot_ = pivot_;
    once.travel_ = travel_;
    return memo.keep(std::move(key), once.search(may_go_up));
}

}  // namespace tinwright
