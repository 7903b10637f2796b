// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "exits/escape_plane.h"

namespace tinwright {

/// A place in the (y, z) plane with a tilt: a point p goes to (y, z) + T p, T turning y towards z; and how much the
/// upper row stands over where it was at the start meanwhile.
struct PlanarPose {
    double y_mm = 0;
    double z_mm = 0;
    double tilt_deg = 0;
    double raised_mm = 0;
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

/// Looks for a way out of a body among others when no straight way exists. Its place has four dimensions: y, z, tilt,
/// and the height of the upper row, which a ram goes up and down by. The two heights are not searched: at each stretch
/// of y and each tilt the free ones are known without steps (EscapePlane). Over y and tilt the search goes in small
/// stretches, each free as a whole, first in coarse ones, then in fine ones. A way found is a way; when none is found
/// there may still be one narrower than the fine stretches tell, or a longer one than is looked for.
class PlanarEscape {
public:
    /// `moving` (convex, counter-clockwise) must not meet `still`; only pairs that share some x are added.
    void addPair(const Polygon& moving, const Convex2& still, bool rises = false);
    /// The point of the body about which it is tilted.
    void tiltAbout(const Vec2& pivot) { pivot_ = pivot; }
    /// What rises may go up and down so far on the way.
    void upperTravels(const UpperTravel& travel) { travel_ = travel; }

    /// To where the straight way forward is free, or straight up if it may leave so. Waypoints from the start, the last
    /// far out; none when the search came to its end.
    [[nodiscard]] std::optional<std::vector<PlanarPose>> search(bool may_go_up) const;
    /// The same, from the memo when these very shapes were asked before.
    [[nodiscard]] std::optional<std::vector<PlanarPose>> search(bool may_go_up, EscapeMemo& memo) const;

    static constexpr double kOut_mm = 2000;

private:
    using Keyed = std::pair<EscapeMemo::Key, const EscapePair*>;
    [[nodiscard]] std::vector<Keyed> keyedPairs() const;
    [[nodiscard]] static std::vector<const EscapePair*> withoutCovered(const std::vector<Keyed>& keyed);
    Vec2 pivot_ = Vec2::Zero();
    UpperTravel travel_;
    std::vector<EscapePair> pairs_;
};

}  // namespace tinwright
