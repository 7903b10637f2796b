// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <string>
#include <tuple>
#include <unordered_map>
#include <vector>

#include <tinwright/brake/plan.h>

#include "bar_strings.h"
#include "leaf_machine.h"
#include "planar_escape.h"
#include "solid.h"

namespace tinwright {

/// The part as it lies in the brake, before a stroke or after it: solids with the shift from their bend's frame to the
/// fold's frame.
struct LyingGroup {
    const std::vector<Solid>* solids = nullptr;
    Micron shift_um = 0;
    bool is_strip = false;       ///< slices of one strip: a planar search takes their hull
};

/// Where along x single groups meet moved tools, each computed once: a group lies alike in many states. Groups are known by the
/// address of their solids, which must stay.
class GroupShadows {
public:
    explicit GroupShadows(const LeafMachine& machine) : machine_(&machine) {}
    using Move = std::tuple<std::size_t, double, double, double, double>;  // body, from (y, z), to (y, z)
    const IntervalSet& of(const std::vector<Solid>& solids, const Move& move);

private:
    struct Moved {
        std::vector<Convex2> sections;
        std::unordered_map<const std::vector<Solid>*, IntervalSet> by_group;
    };
    const LeafMachine* machine_;
    std::map<Move, Moved> moves_;
};

/// Shadows of the lying part on moved tools, each computed once: many strings of bars are tried against one part.
class LyingShadows {
public:
    LyingShadows(const LeafMachine& machine, std::vector<LyingGroup> part, GroupShadows& groups, EscapeMemo& escapes)
        : machine_(&machine), part_(std::move(part)), groups_(&groups), escapes_(&escapes) {}
    [[nodiscard]] EscapeMemo& escapes() { return *escapes_; }
    [[nodiscard]] const std::vector<LyingGroup>& part() const { return part_; }
    /// Where pieces of the family meet the part on the way between two shifts of their standing place.
    const IntervalSet& bars(std::size_t family, const Vec2& from, const Vec2& to);
    /// The same for bed, the leaf (this face, at rest) or the beam raised.
    const IntervalSet& body(std::size_t body, const Vec2& from, const Vec2& to);

private:
    using Key = std::tuple<bool, std::size_t, double, double, double, double>;
    const LeafMachine* machine_;
    std::vector<LyingGroup> part_;
    std::map<Key, IntervalSet> known_;
    IntervalSet moved(std::size_t body, const Vec2& from, const Vec2& to);
    GroupShadows* groups_;
    EscapeMemo* escapes_;
};

/// A question about getting out.
struct WayOutRequest {
    LyingShadows* part = nullptr;
    bool straight_only = false;       ///< leave the planar search out
    BarString bars;
    Interval machine;                 ///< the machine's length in fold x
    std::size_t leaf_face = 0;
};

/// How everything comes out, or why it does not.
struct WayOut {
    bool found = false;
    bool plain = true;                ///< pieces and part simply lift away, or the part draws out forward
    double lift_mm = 0;
    std::vector<int> order;           ///< pieces in the order in which they leave; those not listed stay
    std::vector<ExitMove> moves;
    std::string trapped;              ///< when not found: what is caught
};

/// Where along x the lying part bars the plain way of a piece of this family: lifting off, or (fingers on a beam) rising
/// with the beam and letting the part pass under it to the front.
[[nodiscard]] IntervalSet plainBarShadow(const LeafMachine& machine, std::size_t family, const std::vector<LyingGroup>& part);
/// The same for the part's own plain way past bed, leaf (any face) and beam.
[[nodiscard]] IntervalSet plainBodyShadow(const LeafMachine& machine, const std::vector<LyingGroup>& part);

/// Straight exits (up, back, back and up, along and up, forward), and for the part a planar search with tilt when none of
/// them goes. Every way found is proven free.
[[nodiscard]] WayOut findWayOut(const LeafMachine& machine, const WayOutRequest& request);

}  // namespace tinwright
