// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <deque>
#include <map>
#include <optional>
#include <tuple>
#include <unordered_map>
#include <vector>

#include "exits/planar_escape.h"
#include "kernel/solid.h"
#include "machine/machine.h"

namespace tinwright {

/// Sections of a tool swept along a straight line, with their windows.
struct SweptSections {
    SweptSections() = default;
    SweptSections(const std::vector<Convex2>& sections, const Vec2& from, const Vec2& to);
    std::vector<Convex2> swept;
    std::vector<ClipWindow> windows;
};

/// The part as it lies in the brake, before a stroke or after it: solids with the shift from their bend's frame to the
/// fold's frame.
struct RestGroup {
    const std::vector<Solid>* solids = nullptr;
    Micron shift_um = 0;
    bool is_strip = false;  ///< slices of one strip: a planar search takes their hull
    /// What follows is for a part within tolerances (tolerance_table.h); nothing of it for the nominal part.
    const std::vector<Solid>* on_bed = nullptr;  ///< as bed and leaf see it, where that is not `solids`
    double above_bed_mm = -1;  ///< not negative: nothing of it is under the bed's top, and bed and leaf see it higher
                               ///< or lower by so much
    bool leaves_nose = false;  ///< it goes on from the nose: a bar that does not rise keeps out of it
    [[nodiscard]] const std::vector<Solid>& seenFrom(BodyKind kind) const {
        return on_bed != nullptr && isUnder(kind) ? *on_bed : *solids;
    }
    [[nodiscard]] bool aboveBed() const { return above_bed_mm >= 0; }
    [[nodiscard]] static bool isUnder(BodyKind kind) {
        return kind == BodyKind::kBed || kind == BodyKind::kLeaf || kind == BodyKind::kDie;
    }
};

/// Where along x single groups meet moved tools, each computed once: a group lies alike in many states. Groups are
/// known by the address of their solids, which must stay.
class GroupShadows {
public:
    explicit GroupShadows(const Machine& machine) : machine_(&machine) {}
    using Move = std::tuple<std::size_t, double, double, double, double>;  // body, from (y, z), to (y, z)
    using GroupId = std::uint32_t;
    struct Moved {
        SweptSections sections;
        std::vector<std::uint32_t> by_group;  // shadows; kUnknown: not cast yet
    };
    GroupId idOf(const std::vector<Solid>& solids);
    Moved& moved(const Move& move);
    const IntervalSet& of(Moved& moved, GroupId group);

    /// Whether a piece of a family meets one of another on a straight step, by both families and where it goes from and
    /// to: what stands of the part does not count.
    using Pass = std::tuple<std::size_t, std::size_t, double, double, double, double>;
    [[nodiscard]] std::map<Pass, bool>& passes() { return passes_; }

private:
    static constexpr std::uint32_t kUnknown = 0;
    static constexpr std::uint32_t kNone = 1;
    struct Known {
        const std::vector<Solid>* solids;
        Convex2 hull;  // of their sections
    };
    std::unordered_map<const std::vector<Solid>*, GroupId> ids_;
    std::vector<Known> groups_;
    const Machine* machine_;
    std::map<Move, Moved> moves_;
    std::map<Pass, bool> passes_;
    std::deque<IntervalSet> shadows_ = std::deque<IntervalSet>(2);  // most groups meet nothing: they share kNone
};

/// Shadows of the part at rest on moved tools, each computed once: many strings of bars are tried against one part.
class RestShadows {
public:
    RestShadows(const Machine& machine, std::vector<RestGroup> part, GroupShadows& groups, EscapeMemo& escapes);
    [[nodiscard]] EscapeMemo& escapes() { return *escapes_; }
    [[nodiscard]] std::map<GroupShadows::Pass, bool>& passes() { return groups_->passes(); }
    [[nodiscard]] const std::vector<RestGroup>& part() const { return part_; }
    /// Where pieces of the family meet the part on the way between two shifts of their standing place.
    const IntervalSet& bars(std::size_t family, const Vec2& from, const Vec2& to);
    /// Where a piece of the family cannot be drawn back by this step, and as much more as it gives way, and then
    /// lifted.
    const IntervalSet& noLift(std::size_t family, std::size_t back_step, std::size_t give = 0);
    /// How far a piece gives way to the back as it is lifted by hand (or the part to the front as its beam rises), as
    /// tried: not at all for the nominal part.
    [[nodiscard]] const std::vector<double>& gives_mm() const { return gives_mm_; }
    void mayGive(std::vector<double> gives_mm) { gives_mm_ = std::move(gives_mm); }
    /// Of narrow obstacles under an end relief no point is kept: then more of the part can only add to what is in the
    /// way.
    void leavePointsOut() { keeps_points_ = false; }
    /// Dies and bed of a press brake lie this much over where a stroke begins.
    void raiseUnder(double rise_mm) { rise_mm_ = rise_mm; }
    [[nodiscard]] double rise_mm() const { return rise_mm_; }
    /// The same as `bars` for bed, the leaf (this face, at rest) or the beam raised.
    const IntervalSet& body(std::size_t body, const Vec2& from, const Vec2& to);

    /// How far pieces are drawn back before they are lifted, as tried.
    static constexpr std::array<double, 7> kBackSteps_mm{0, 12, 25, 50, 75, 100, 150};

private:
    using Key = std::tuple<bool, std::size_t, double, double, double, double>;
    IntervalSet moved(std::size_t body, const Vec2& from, const Vec2& to);
    const Machine* machine_;
    struct Ids {  // of a group, as bars see it and as bed and leaf do
        GroupShadows::GroupId from_bars = 0;
        GroupShadows::GroupId from_under = 0;
    };
    std::vector<RestGroup> part_;
    std::vector<Ids> ids_;
    std::map<Key, IntervalSet> known_;
    GroupShadows* groups_;
    EscapeMemo* escapes_;
    std::vector<double> gives_mm_{0};
    bool keeps_points_ = true;
    double rise_mm_ = 0;
    std::vector<std::optional<IntervalSet>> no_lift_;  // by family, step, give
};

/// The plain exits of a machine: bars that lift off and a part that lifts after them, or a beam that rises and a part
/// that is drawn out forward under it. Where along x groups of the part at rest are in the way.
class PlainExits {
public:
    explicit PlainExits(const Machine& machine);
    /// True when nothing of the machine passes the hull on its way, nearer than the margin: no bar, and no bed, leaf or
    /// beam.
    [[nodiscard]] bool clearOfBars(const Convex2& hull, double margin_mm = 0) const;
    [[nodiscard]] bool clearOfBodies(const Convex2& hull, double margin_mm = 0) const;
    /// Where the solids bar the way of a piece of this family; and where they do so whatever else is there: narrow
    /// obstacles under an end relief may join wider ones.
    void addBars(std::size_t family, const std::vector<Solid>& solids, IntervalSet& barred, IntervalSet& surely) const;
    /// Where bed, leaf or beam bar the way of the solids.
    [[nodiscard]] IntervalSet bodies(std::size_t face, const std::vector<Solid>& solids) const;

private:
    struct BarStep {  // of a family's way
        SweptSections high;
        SweptSections low;  // what the end relief shortens
    };
    void addStep(std::size_t family, const Vec2& from, const Vec2& to);
    const Machine* machine_;
    bool bars_stay_ = false;  // loose bars under a beam have no plain way
    std::vector<std::vector<BarStep>> bars_;
    struct BodyWay {
        std::size_t body = 0;
        SweptSections swept;
    };
    std::vector<BodyWay> bodies_;
    std::vector<std::vector<bool>> on_face_;  // by face, then as bodies_
};

}  // namespace tinwright
