// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <memory>
#include <unordered_map>
#include <vector>

#include <tinwright/base/stroke.h>

#include "bodies/stroke_geometry.h"

namespace tinwright {

/// One group of the part in the frame of a fold's bend, for one state of the bends on its path. Its solids are made
/// when they are first asked for: most groups keep away from most things as a whole.
struct GroupRecord {
    BendId bend;  ///< that is folded
    Side hold = Side::kParent;
    BendMask formed = 0;          ///< bends on the path to the group, its own strip's included
    std::uint32_t congruent = 0;  ///< the first record that looks just like it, but for where it lies along x; itself
                                  ///< if none does
    Micron from_congruent_um = 0;
    std::size_t group = 0;
    bool moving = false;
    bool is_arc = false;        ///< the strip of a formed bend
    bool lies_flat = false;     ///< before the stroke all of it lies in the sheet on the bed
    bool rises = false;         ///< before the stroke nothing of it is under the sheet's lower face
    bool driven_bears = false;  ///< what is driven bears on the group: contact is part of the job
    bool driven_sees = false;   ///< false where what is driven is never near or bears on the group
    double lowest_mm = 0;       ///< z of what hangs lowest before the stroke
    double over_driven_mm = 0;  ///< where it is false: how far it keeps from what is driven at the least; infinite:
                                ///< always
    Rigid pose = Rigid::Identity();       ///< before the stroke
    std::shared_ptr<const Convex2> hull;  ///< holds all sections, before the stroke; congruent records share one
    double x_lo_mm = 0, x_hi_mm = 0;
    RadiusRange ring;     ///< about the centre of the swing between the sides
    double reach_mm = 0;  ///< how far the stroke may take it out of the ring

    std::vector<Solid> solids;                        ///< before the stroke; here and below empty until laid out
    std::vector<SeenSolid> seen;                      ///< by what stands still
    std::vector<std::vector<SeenSolid>> from_driven;  ///< by what is driven, if it does; by packing
    std::vector<SeenSolid> paired;                    ///< moving: by the held side
    std::vector<Solid> after;  ///< what moves: at the target angle, when the part has sprung back
};

/// Corners of solids in a pose, and what holds them all in (y, z).
void cornersOf(const std::vector<PrismRings>& solids, const Rigid& pose, std::vector<Vec3>& corners);
[[nodiscard]] Convex2 cornerHull(const std::vector<Vec3>& corners);

/// Where each group of the part lies in each stroke, each place made once: it is a function of the bend, the side
/// held, the group and the formed bends on the path from the bend to the group, and of nothing else.
class GroupRecords {
public:
    explicit GroupRecords(const StrokeGeometry& geometry);

    /// Index of the record of a group in a state; the group's frame panel must not lie beyond an unformed bend of
    /// the same fold.
    std::uint32_t of(BendId bend, Side hold, std::size_t group, BendMask formed);
    [[nodiscard]] const GroupRecord& at(std::uint32_t record) const { return *records_[record]; }
    [[nodiscard]] std::size_t count() const { return records_.size(); }
    /// The same with its solids.
    const GroupRecord& laidOut(std::uint32_t index);
    /// The solids as they lie in a phase, and the pose that takes the group's blank frame there.
    const std::vector<Solid>& atRest(std::uint32_t index, Phase phase);
    [[nodiscard]] Rigid poseIn(std::uint32_t index, Phase phase) const;
    /// A moving group as the held side sees it.
    const std::vector<SeenSolid>& pairedSeen(std::uint32_t moving);
    /// The prisms of a record's group in its blank frame.
    [[nodiscard]] const std::vector<PrismRings>& ringsOf(const GroupRecord& record) const;
    /// False for what a stroke leaves where it is.
    [[nodiscard]] bool moves(const GroupRecord& record) const {
        return record.moving || geometry_.machine().movesBothSides();
    }

private:
    std::uint32_t make(BendId bend, Side hold, std::size_t group, BendMask formed);
    void place(GroupRecord& record) const;
    void boundAround(GroupRecord& record, const std::vector<Vec3>& corners) const;
    [[nodiscard]] bool findCongruent(GroupRecord& record, const std::vector<Vec3>& corners);
    [[nodiscard]] bool areCongruent(const GroupRecord& a, const std::vector<Vec3>& corners, const GroupRecord& b,
                                    Micron from_b_um) const;

    const StrokeGeometry& geometry_;
    std::vector<std::unique_ptr<GroupRecord>> records_;
    std::vector<std::unordered_map<BendMask, std::uint32_t>> index_;  // [(bend * 2 + hold) * groups + group]
    /// Records without an older congruent one, by what is alike in such.
    std::unordered_map<std::uint64_t, std::vector<std::uint32_t>> congruents_;
    std::unordered_map<std::uint32_t, std::vector<Vec3>> corners_;  // of those
    std::vector<Vec3> scratch_;
};

}  // namespace tinwright
