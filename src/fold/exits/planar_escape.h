// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <map>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

#include "kernel/convex2.h"

namespace tinwright {

/// A place in the (y, z) plane with a tilt: a point p goes to (y, z) + T p, T turning y towards z.
struct PlanarPose {
    double y_mm = 0;
    double z_mm = 0;
    double tilt_deg = 0;
};

/// Searches already made: many states of a part put the same shapes round the same piece.
class EscapeMemo {
public:
    using Key = std::vector<long long>;
    using Way = std::optional<std::vector<PlanarPose>>;
    [[nodiscard]] const Way* find(const Key& key) const {
        const auto found = known_.find(key);
        return found == known_.end() ? nullptr : &found->second;
    }
    const Way& keep(Key key, Way way) { return known_.insert_or_assign(std::move(key), std::move(way)).first->second; }

private:
    std::map<Key, Way> known_;
};

/// Looks for a way out of a body among still ones when no straight way exists: over a grid of small moves, every move
/// proven free over its whole length, until a straight line out is free. A way found is a way; when none is found there
/// may still be one between the grid's places, or a longer one than is looked for.
class PlanarEscape {
public:
    PlanarEscape();
    PlanarEscape(const PlanarEscape&) = delete;
    PlanarEscape& operator=(const PlanarEscape&) = delete;
    ~PlanarEscape();
    /// `moving` (convex, counter-clockwise) must not meet `still`; only pairs that share some x are added.
    void addPair(const Polygon& moving, const Convex2& still);
    /// The point of the body about which it is tilted from place to place, told when all pairs are there. A part that
    /// is tilted about its back corner on the bed needs few steps to come out from under raised fingers.
    void tiltAbout(const Vec2& pivot);

    /// `ways_out`: directions in (y, z) along which the body is gone once the line is free (unit vectors).
    /// Waypoints from the start, the last far out; none when the search came to its end.
    [[nodiscard]] std::optional<std::vector<PlanarPose>> search(const std::vector<Vec2>& ways_out) const;
    /// The same, from the memo when these very shapes were asked before.
    [[nodiscard]] std::optional<std::vector<PlanarPose>> search(const std::vector<Vec2>& ways_out,
                                                                EscapeMemo& memo) const;

    static constexpr double kStep_mm = 5;
    static constexpr double kTilt_deg = 3;
    static constexpr double kOut_mm = 2000;

private:
    struct Pair {
        Convex2 moving;
        Convex2 still;
    };
    using Cell = std::array<int, 3>;  // steps in y, z and tilt
    class AtTilt;
    using Keyed = std::pair<EscapeMemo::Key, const Pair*>;
    [[nodiscard]] std::vector<Keyed> keyedPairs() const;
    template <class Free>
    bool allFree(std::size_t& first, Free free) const;
    bool slideIsFree(const Cell& from, const Vec2& by, std::size_t& first) const;
    bool tiltIsFree(const Cell& from, const Cell& to, std::size_t& first) const;
    struct InWay {  // of a straight line out: how many pairs, and which line has fewest
        std::size_t pairs;
        std::size_t way;
    };
    [[nodiscard]] InWay inWayOut(const Cell& from, const std::vector<Vec2>& ways_out) const;
    [[nodiscard]] Vec2 offsetAt(const Cell& cell) const;
    [[nodiscard]] PlanarPose poseOf(const Cell& cell) const;
    [[nodiscard]] AtTilt& atTilt(int half_steps) const;
    [[nodiscard]] static std::vector<std::unique_ptr<AtTilt>>& spareTilts();
    Vec2 pivot_ = Vec2::Zero();
    std::vector<Pair> pairs_;
    std::vector<double> reaches_mm_;                      // of the moving ones, from the pivot
    std::vector<Vec2> tilt_offsets_;                      // by tilt: the pivot stays where it is
    mutable std::vector<std::unique_ptr<AtTilt>> tilts_;  // made when asked for
};

}  // namespace tinwright
