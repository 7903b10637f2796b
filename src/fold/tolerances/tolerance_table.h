// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <optional>
#include <unordered_map>
#include <vector>

#include "contact/contact_cache.h"
#include "tolerances/deviation.h"
#include "tolerances/inflated.h"

namespace tinwright {

/// What ContactCache tells of the nominal part, told of every part within the tolerances at once, by inflated solids:
/// contact, never nearness. Like there each fact is computed once. NOTES.md, "Over the tolerance box", has the reasons.
class ToleranceTable {
public:
    ToleranceTable(ContactCache& table, const ToleranceBox& box);

    /// What the stroke of a bend may be.
    struct SwingBounds {
        SwingBounds(const Machine& machine, const Bend& bend, double set_rad, const ToleranceBox& box);
        BendMotions motions;  ///< as far as it may swing
        double motion_mm;     ///< what it may be off by before turning; Swelling
        double flat_motion_mm;
        double bed_mm;   ///< and after, against the bed
        double leaf_mm;  ///< against the leaf that bears on the sheet, and bars against it
    };

    [[nodiscard]] const ToleranceBox& box() const { return box_; }
    [[nodiscard]] ContactCache& nominal() { return table_; }

    /// Where along x (bend frame) a body must not stand during the stroke.
    const IntervalSet& shadow(std::uint32_t record, std::size_t body);
    /// How much is lacking between a record and a body that stands over a stretch of x; 0 when they stay apart.
    [[nodiscard]] double lack_mm(std::uint32_t record, std::size_t body, Interval at);
    /// What two members of the part lack; 0 when they stay apart. Those that the finished part as drawn leaves less
    /// room than is lacking here may touch whatever the order: they lack nothing.
    struct MemberLack {
        double lack_mm = 0;
        bool may_touch = false;
    };
    /// Of a moving and a held group; `shift_um` takes the moving one's bend frame to the held one's.
    const MemberLack& pair(std::uint32_t moving, std::uint32_t held, Micron shift_um);
    /// Of a bend's own strip, at the end of the stroke, and a group that it does not join.
    MemberLack strip(BendId bend, Side hold, std::uint32_t record, Micron shift_um);
    /// ContactCache::familyFits and drivenClearsBeam.
    bool familyFits(BendId bend, Side hold, std::size_t family, std::size_t face);
    bool drivenClearsBeam(BendId bend, std::size_t face);

    /// The solids of a record as they may lie in a phase.
    const std::vector<Solid>& atRest(std::uint32_t record, Phase phase, SeenFrom from);
    /// True when nothing of it comes under the bed's top in a phase.
    bool liesAboveBed(std::uint32_t record, Phase phase);
    /// True when neither bars and beam that only rise or go back nor bed and leaf at rest can meet it: flat under the
    /// bars, or in front of them and over the bed.
    bool liesOutOfTheWay(std::uint32_t record, Phase phase);
    /// True when it is the flat sheet that goes on from the bend round the nose.
    [[nodiscard]] bool leavesTheNose(std::uint32_t record) const;
    /// A bound of all displacements of the group in a phase.
    [[nodiscard]] double most_mm(std::uint32_t record, Phase phase);
    /// True when the way between the held panels of two bends has no formed bend, so that their lines agree in every
    /// part.
    [[nodiscard]] bool oneSheet(BendId a, Side hold_a, BendId b, Side hold_b, BendMask formed) const;

private:
    struct Inflated {
        std::vector<PrismRings> rings;
        std::vector<Solid> solids;
        std::vector<SeenSolid> seen;
        std::vector<SeenSolid> from_driven;
        double z_lo_mm = 0;
    };
    struct Kept {
        std::unique_ptr<Deviation> deviation[2];  // by Phase
        double most_mm[2] = {-1, -1};
        std::unique_ptr<Inflated> inflated[2][2];      // by SeenFrom, by whether the cut edges are off
        std::unique_ptr<std::vector<Solid>> after[2];  // by SeenFrom: moving groups
        std::optional<bool> above[2];                  // by Phase
        std::vector<std::optional<IntervalSet>> shadows;
    };
    struct View {
        const Motion* motion;
        const ToolPieces* pieces;
        SeenFrom from;
        double margin_mm;
    };
    Kept& kept(std::uint32_t record);
    /// Least z and greatest y of the nominal group in a phase.
    struct Bounds {
        double z_lo_mm;
        double y_hi_mm;
    };
    [[nodiscard]] Bounds boundsOf(std::uint32_t record, Phase phase) const;
    const SwingBounds& swingBounds(BendId bend);
    const Deviation& deviation(std::uint32_t record, Phase phase);
    Inflated& inflated(std::uint32_t record, SeenFrom from, bool cut);
    const std::vector<SeenSolid>& seenBy(std::uint32_t record, const View& view, std::size_t body);
    [[nodiscard]] View viewOf(std::uint32_t record, std::size_t body);
    /// Contact that is part of the job, or that the tolerances cannot bring about.
    bool apartByDesign(std::uint32_t record, std::size_t body);
    /// How much room over the bed is lacking; none when the rule for what lies on the moving sheet does not apply.
    std::optional<double> overBedLack_mm(std::uint32_t record);
    /// Least height over the bed on the way to a right angle (0 when it is none under it), and past it.
    [[nodiscard]] double leastRising_mm(const Solid& solid, const Swing& swing) const;
    [[nodiscard]] double leastFalling_mm(const Solid& solid, const Swing& swing) const;
    /// Quick proof that a record keeps away from a body over a stretch of x.
    bool staysAway(std::uint32_t record, std::size_t body, Interval at);
    /// Pieces of a body that the group, taken as one, is not proven to keep away from.
    ToolPieces piecesWithin(std::uint32_t record, const View& view);
    IntervalSet castShadows(std::uint32_t record, std::size_t body);
    MemberLack computePair(std::uint32_t moving, std::uint32_t held, Micron shift_um);
    /// Distance of two groups in the finished part as drawn; kClearanceCap_mm when it is more.
    double drawnGap_mm(std::size_t a, std::size_t b);
    const Polygon& outlineOf(std::size_t group);
    [[nodiscard]] std::vector<PrismRings> inflatedRings(std::uint32_t record, Phase phase, const Swelling& how);

    ContactCache& table_;
    ToleranceBox box_;
    double bed_back_mm_ = 0;
    std::vector<std::unique_ptr<SwingBounds>> swings_;  // by bend
    std::vector<std::unique_ptr<Kept>> records_;
    struct PairKey {
        std::uint32_t moving;
        std::uint32_t held;
        Micron shift_um;
        friend auto operator<=>(const PairKey&, const PairKey&) = default;
    };
    std::map<PairKey, MemberLack> pairs_;
    std::map<std::pair<std::size_t, std::size_t>, double> drawn_gaps_;
    std::map<std::array<std::size_t, 3>, std::vector<Solid>> strips_;  // by bend, hold, whether its ends are cut
    std::vector<Polygon> outlines_;                                    // by group: a convex polygon round it, flat
    std::map<std::array<std::size_t, 4>, bool> fits_;
};

}  // namespace tinwright
