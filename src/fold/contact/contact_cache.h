// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cstdint>
#include <limits>
#include <map>
#include <memory>
#include <optional>
#include <unordered_map>
#include <vector>

#include <tinwright/base/hash.h>
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/part_on_brake.h>
#include <tinwright/brake/machines/shop.h>

#include "contact/part_bodies.h"
#include "exits/rest_shadows.h"
#include "kernel/solid_pair.h"
#include "machine/machine.h"

namespace tinwright {

/// A clearance as far as it was asked for.
struct KnownGap {
    double beyond_mm = -1;  ///< proven to be at least this
    std::optional<GapBound> gap;
};

/// What one group meets of one body during a stroke.
struct BodyContact {
    bool known = false;
    bool near_known = false;
    double beyond_mm = -1;  ///< the group as a whole is proven to stay further than this
    double not_beyond_mm = std::numeric_limits<double>::infinity();  ///< and not proven to stay further than this
    bool intended = false;  ///< contact is part of the job: no clearance is asked
    Shadow shadow;          ///< contact
    IntervalSet near;       ///< nearer than the wanted clearance (a superset of shadow.outer); empty when intended, and
                            ///< until asked for
    std::vector<KnownGap> gaps;                          ///< by solid, in (y, z)
    std::vector<std::pair<double, IntervalSet>> nearer;  ///< by margin, as asked for
};

/// A quick proof halves the stroke this often.
inline constexpr int kQuickDepth = 3;

/// What is in the way of the plain exits: bars that lift off and a part that lifts after them, or a beam that rises and
/// a part that is drawn out forward.
struct PlainExit {
    std::vector<IntervalSet> bars;  ///< by family: x where a piece's way is barred
    IntervalSet bodies;             ///< x where bed, leaf or beam bar the part's way
};

/// Slices of arcs stand out by their sagitta: by so much an overlap may be theirs alone, and then nothing is known.
enum class StripContact { kClear, kUnclear, kHit };

enum class Phase { kBefore, kAfter };  ///< of the stroke

/// One group of the part in the frame of a fold's bend, for one state of the bends on its path. Its solids are made
/// when they are first asked for: most groups keep away from most things as a whole.
struct GroupContact {
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
    double over_driven_mm = 0;  ///< where it is false: how far it keeps from what is driven at the least; infinite:
                                ///< always
    Rigid pose = Rigid::Identity();       ///< before the stroke
    std::shared_ptr<const Convex2> hull;  ///< holds all sections, before the stroke; congruent records share one
    double x_lo_mm = 0, x_hi_mm = 0;
    RadiusRange ring;                                         ///< about the centre of the swing between the sides
    double reach_mm = 0;                                      ///< how far the stroke may take it out of the ring
    std::vector<BodyContact> bodies;                          ///< by body of the machine; empty until one is asked for
    std::optional<std::vector<std::uint32_t>> families_met;   ///< tools that it touches,
    std::optional<std::vector<std::uint32_t>> families_near;  ///< or comes nearer to than wanted
    std::unique_ptr<PlainExit> exits[2];                      ///< by Phase; what does not move is the same in both

    std::vector<Solid> solids;           ///< before the stroke; here and below empty until laid out
    std::vector<SeenSolid> seen;         ///< by what stands still
    std::vector<SeenSolid> from_driven;  ///< by what is driven, if it does
    std::vector<SeenSolid> paired;       ///< moving: by the held side
    std::vector<Solid> after;            ///< what moves: at the target angle, when the part has sprung back
};

struct PairContact {
    PairVerdict verdict;
    bool near = false;  ///< nearer than wanted, be it so drawn or not
    KnownGap gap;
};

/// Everything geometric that folds on one brake depend on, each computed once: it is a function of the bend, the side
/// held, the group and the formed bends on the path from the bend to the group, and of nothing else.
class ContactCache {
public:
    /// Refers to the part, which must stay where it is.
    ContactCache(const PartOnBrake& part, const Shop& shop, std::unique_ptr<const Machine> machine,
                 const std::vector<double>& radii_mm = {});
    ContactCache(const PartOnBrake& part, const Shop& shop, const BrakeInSetup& brake,
                 const std::vector<double>& radii_mm = {})
        : ContactCache(part, shop, makeMachine(brake, part.part().thickness_mm), radii_mm) {}

    [[nodiscard]] const PartBodies& bodies() const { return bodies_; }
    [[nodiscard]] const Machine& machine() const { return machine_; }
    [[nodiscard]] const Limits& limits() const { return *limits_; }
    [[nodiscard]] const BendMotions& motions(BendId bend) const { return *motions_[bend.index()]; }
    [[nodiscard]] double set_rad(BendId bend) const { return motions_[bend.index()]->set_rad; }

    /// Index of the record of a group in a state; the group's frame panel must not lie beyond an unformed bend of
    /// the same fold.
    std::uint32_t record(BendId bend, Side hold, std::size_t group, BendMask formed);
    [[nodiscard]] const GroupContact& at(std::uint32_t record) const { return *records_[record]; }
    [[nodiscard]] BendId bendOf(std::uint32_t record) const { return bend_of_record_[record]; }
    /// The same with its solids.
    const GroupContact& laidOut(std::uint32_t record);
    /// The solids as they lie in a phase.
    const std::vector<Solid>& atRest(std::uint32_t record, Phase phase);
    /// Contact alone.
    const BodyContact& contact(std::uint32_t record, std::size_t body);
    /// And where the group comes nearer than wanted.
    const BodyContact& contactAndNear(std::uint32_t record, std::size_t body);
    /// Families of tools whose contactAndNear() (`wanted`) or touch() with the record is not empty: few.
    const std::vector<std::uint32_t>& familiesMet(std::uint32_t record, bool wanted);
    /// A moving and a held group; `shift_um` takes the moving one's bend frame to the held one's.
    const PairContact& pair(std::uint32_t moving, std::uint32_t held, Micron shift_um);
    /// Clearance in (y, z) of a solid of the record; none when it is proven to be at least `cap_mm`. What comes back
    /// does not depend on the cap.
    std::optional<GapBound> gapUnder(double cap_mm, std::uint32_t record, std::size_t body, std::size_t solid);
    /// True when no solid of the record comes nearer than `cap_mm` in (y, z), as far as a quick proof tells.
    [[nodiscard]] bool groupBeyond(double cap_mm, std::uint32_t record, std::size_t body);
    /// True when contact of the two is part of the job.
    [[nodiscard]] bool isIntended(std::uint32_t record, std::size_t body) const {
        return isIntended(*records_[record], machine_.bodies()[body]);
    }
    std::optional<GapBound> pairGapUnder(double cap_mm, std::uint32_t moving, std::uint32_t held, Micron shift_um);
    /// The contact shadow at another margin: where the group comes within `margin_mm` of the body.
    const IntervalSet& nearerThan(std::uint32_t record, std::size_t body, double margin_mm);
    /// First witnessed contact of a record with a body; negative angle when there is none.
    [[nodiscard]] double firstContact_rad(std::uint32_t record, std::size_t body, double& depth_mm);
    const PlainExit& plainExit(std::uint32_t record, Phase phase);
    /// Where lower tools lie when the part has sprung back and still bears on them, over where the stroke began.
    [[nodiscard]] double riseAfter_mm(BendId bend) const {
        return machine_.rise_mm(0.5 * bodies_.part().bend(bend).angle.rad());
    }
    /// Machine::fits.
    bool familyFits(BendId bend, Side hold, std::size_t family, std::size_t leaf_face);
    /// True when what is driven, with the sheet on it, keeps out of what stands over the pieces.
    bool drivenClearsBeam(BendId bend, std::size_t leaf_face);
    /// Whether the fold's own strip, bent, keeps out of a group: a held one, or a moving one at the end of the stroke.
    StripContact ownStrip(BendId bend, Side hold, std::uint32_t record, Micron shift_um);
    /// Slices of the fold's own strip at the end of the stroke, in the bend's frame.
    const std::vector<Solid>& ownSlices(BendId bend, Side hold);
    /// The same when the part has sprung back, where it then is.
    const std::vector<Solid>& sprungSlices(BendId bend, Side hold);
    /// The same at any angle, longer at each end, and moved by `then`.
    [[nodiscard]] std::vector<Solid> slicesAt(BendId bend, Side hold, Angle angle, double longer_mm,
                                              const Rigid& then = Rigid::Identity()) const;
    /// True when two groups of the finished part lie closer than the wanted clearance: what is so drawn is meant to be.
    bool drawnClose(std::size_t a, std::size_t b);
    /// How close two groups of the finished part lie as far as separating axes tell, to be compared with gaps in a
    /// stroke that are found by them too; kClearanceCap_mm when it is more.
    [[nodiscard]] double drawnGap_mm(std::size_t a, std::size_t b) const;
    /// From the blank frame of the held panel to the frame of the bend.
    [[nodiscard]] Rigid bendFrame(BendId bend, Side hold) const;
    /// The prisms of a record's group in its blank frame, and the pose that takes them to the bend's frame in a phase.
    [[nodiscard]] const std::vector<PrismRings>& ringsOf(const GroupContact& contact) const;
    [[nodiscard]] Rigid poseIn(std::uint32_t record, Phase phase) const;
    [[nodiscard]] static std::vector<Solid> shifted(const std::vector<Solid>& solids, Micron shift_um);
    /// Where along x (bend frame) the held panel gives at least the wanted clamped width behind the nose line; on a
    /// press brake, where both panels reach past the shoulders of the V throughout the stroke.
    const IntervalSet& clampedWidth(BendId bend, Side hold);

    [[nodiscard]] std::size_t recordCount() const { return records_.size(); }
    [[nodiscard]] std::size_t pairCount() const { return pairs_.size(); }

private:
    std::uint32_t makeRecord(BendId bend, Side hold, std::size_t group, BendMask formed);
    void placeGroup(GroupContact& contact, BendId bend, Side hold, BendMask formed) const;
    [[nodiscard]] std::size_t firstThatGoesAs(std::size_t bend) const;
    static void boundAlong(GroupContact& contact, const std::vector<Vec3>& corners);
    void boundAround(GroupContact& contact, const std::vector<Vec3>& corners) const;
    [[nodiscard]] bool findCongruent(GroupContact& contact, const std::vector<Vec3>& corners);
    [[nodiscard]] bool areCongruent(const GroupContact& a, const std::vector<Vec3>& corners, const GroupContact& b,
                                    Micron from_b_um) const;
    const std::vector<SeenSolid>& pairedSeen(std::uint32_t moving);
    /// False for what a stroke leaves where it is.
    [[nodiscard]] bool moves(const GroupContact& contact) const;
    [[nodiscard]] IntervalSet clampedWidthOf(BendId bend, Side hold, Side side, double depth_mm) const;
    struct View {  // a record as a body sees it
        const Motion* motion;
        const ToolPieces* pieces;
    };
    [[nodiscard]] View viewOf(const GroupContact& contact, const BendMotions& motions, std::size_t body,
                              bool strict) const;
    /// The solids that a body sees: none where the leaf does not see them.
    const std::vector<SeenSolid>& seenBy(std::uint32_t record, std::size_t body);
    [[nodiscard]] static std::vector<const ToolPiece*> piecesWithin(const GroupContact& contact, const View& view,
                                                                    double margin_mm);
    BodyContact& known(std::uint32_t record, std::size_t body);
    [[nodiscard]] bool isIntended(const GroupContact& contact, const Body& tool) const;
    [[nodiscard]] bool isLate(const GroupContact& contact, const Body& tool) const;
    void castContact(std::uint32_t record, std::size_t body, const std::vector<std::size_t>& close,
                     BodyContact& result);
    void witnessOnFront(std::uint32_t record, std::size_t body, Shadow& shadow);
    [[nodiscard]] std::vector<std::size_t> castNear(std::uint32_t record, std::size_t body, BodyContact& result);
    [[nodiscard]] PlainExit computeExit(std::uint32_t record, Phase phase);
    PairContact computePair(std::uint32_t moving, std::uint32_t held, Micron shift_um);
    [[nodiscard]] static bool groupsBeyond(double cap_mm, const GroupContact& moving, const GroupContact& held,
                                           const Motion& motion);

    PartBodies bodies_;
    std::unique_ptr<const Machine> owned_machine_;
    const Machine& machine_;
    PlainExits plain_exits_;
    const Limits* limits_;
    std::vector<std::unique_ptr<BendMotions>> motions_;
    std::vector<std::unique_ptr<GroupContact>> records_;
    std::vector<BendId> bend_of_record_;
    std::vector<std::unordered_map<BendMask, std::uint32_t>> index_;  // [(bend * 2 + hold) * groups + group]
    std::vector<std::size_t> motion_class_;                           // by bend: the first that goes just the same
    /// Records without an older congruent one, by what is alike in such.
    std::unordered_map<std::uint64_t, std::vector<std::uint32_t>> congruents_;
    std::unordered_map<std::uint32_t, std::vector<Vec3>> corners_;  // of those
    std::vector<Vec3> scratch_;
    struct PairKey {
        std::uint32_t moving;
        std::uint32_t held;
        Micron shift_um;
        friend bool operator==(const PairKey&, const PairKey&) = default;
    };
    struct PairHash {
        std::size_t operator()(const PairKey& key) const {
            const std::uint64_t ids = (std::uint64_t{key.moving} << 32) | key.held;
            return static_cast<std::size_t>(hashed(ids, static_cast<std::uint64_t>(key.shift_um)));
        }
    };
    /// The pair of congruent records that tells what a pair meets.
    [[nodiscard]] PairKey congruentOf(std::uint32_t moving, std::uint32_t held, Micron shift_um) const;
    std::unordered_map<PairKey, PairContact, PairHash> pairs_;        // of congruent records
    std::vector<std::unique_ptr<std::vector<Solid>>> own_strips_;     // [bend * 2 + hold]
    std::vector<std::unique_ptr<std::vector<Solid>>> sprung_strips_;  // the same
    std::vector<std::unique_ptr<IntervalSet>> clamped_widths_;
    std::unordered_map<PairKey, StripContact, PairHash> strip_contacts_;  // bend * 2 + hold, record, shift
    std::map<std::array<std::size_t, 4>, bool> fits_;                     // bend, hold, body, leaf face
    std::unordered_map<std::uint64_t, bool> drawn_close_;
    std::vector<std::vector<Solid>> finished_;  // groups of the finished part in the base's frame
};

}  // namespace tinwright
