// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/plan/body_ref.h>
#include <tinwright/brake/plan/reason.h>
#include <tinwright/geometry/interval_set.h>

#include "kernel/shadow.h"
#include "machine/bend_motions.h"

namespace tinwright {

enum class BodyKind { kBed, kBeam, kLeaf, kBarLow, kBarHigh, kDie, kFrame, kJaw };

/// A section that runs along x, in the frame of a fold, moved in by the contact tolerance. Rings are about the hinge
/// for a leaf, about the centre of the swing for all else.
struct Body {
    BodyRef::Kind what = BodyRef::Kind::kNone;  ///< as it is told
    BodyKind kind = BodyKind::kBed;
    bool driven = false;        ///< moves in the frame of a fold: the leaf; dies and bed of a press brake
    std::size_t packing = 0;    ///< of bed and leaf under a sheet that is packed up: Machine::packing
    double under_sheet_mm = 0;  ///< strips between it and the sheet
    std::vector<Convex2> section;
    ToolPieces pieces;  ///< of the section
    /// The same not moved in (but for rounding): clearances are told from these.
    ToolPieces strict;
};

/// How far the strict sections are moved in: an arc starts at a bar's underside, and touching there is no contact.
inline constexpr double kStrictInset_mm = 1e-3;

/// How much shorter a part of a bar is at its ends than the rest of it.
struct Relief {
    Micron left_um = 0;
    Micron right_um = 0;
    [[nodiscard]] Interval shortened(Interval bar) const { return {bar.lo + left_um, bar.hi - right_um}; }
};

/// Bars of one section and end relief, whatever their width.
struct ToolFamily {
    std::size_t high = 0;  ///< body: what stands over the whole width
    int low = -1;          ///< body: what relief or horn shortens; -1 without
    int jaw_roof = -1;   ///< bodies of a die whose jaw closes hems, open, over the jaw's floor (z = 0): what sinks; -1
                         ///< without
    int jaw_floor = -1;  ///< and what stays
    Relief relief;
    ToolRow row = ToolRow::kUpper;
    double depth_mm = 0;
    double height_mm = 0;
    Polygon section;  ///< in the frame of a fold, not moved in; simple, not always convex
};

/// Where a bar with end relief must not stand, from where its shortened part would hit if it were full: intervals lose
/// the relief at both ends. One that vanishes keeps a point, since a bar may not span it, unless `high`, where the rest
/// hits, keeps bars as far apart anyway.
[[nodiscard]] IntervalSet withRelief(const IntervalSet& low, const Relief& relief, const IntervalSet& high);
/// The same without those points: so it only grows with `low`.
[[nodiscard]] IntervalSet insideRelief(const IntervalSet& low, const Relief& relief);

/// Heights above the sheet that differ by no more are the same.
inline constexpr double kFlat_mm = 1e-6;

/// Clearances above this are not told apart.
inline constexpr double kClearanceCap_mm = 5.0;

/// How upper pieces and the part get out.
struct Exits {
    enum class Order {
        kPiecesFirst,   ///< pieces are taken out one after the other, then the part
        kRaisedPieces,  ///< all pieces are raised together, the part is drawn out under them
        kOverLower,     ///< the same, and the part is lifted out of what it lies in first
    };
    Order order = Order::kPiecesFirst;
    double opening_mm = 0;    ///< kRaisedPieces: what holds the pieces lifts by so much
    bool in_place = false;    ///< kRaisedPieces: pieces can be loosened and taken out singly
    bool part_up = true;      ///< nothing stands over the part once the pieces are out
    bool plain_known = true;  ///< whether all simply lifts away is known from each group by itself
    [[nodiscard]] bool loose() const { return order == Order::kPiecesFirst; }
};

/// How deep a panel must lie flat behind the strip of its bend, on the held side and on the moving one; none: no
/// matter.
struct FlatDepth {
    double held_mm = 0;
    std::optional<double> moving_mm;
};

/// A stretch in front of and behind the nose line.
struct Stretch {
    double from_mm = 0;  ///< y
    double to_mm = 0;
};

/// Where strips lie that pack the sheet up, before the stroke.
struct PackedLie {
    Stretch least;            ///< at the least: nothing of the part hangs under the sheet there
    double bed_from_mm = 0;   ///< y at which that on the bed begins, towards the back
    double leaf_from_mm = 0;  ///< and that on what swings, towards the front
};

/// What keeps a machine from folding further, as it is told.
struct AngleLimit {
    ReasonCode told_as = ReasonCode::kLeafAngle;
    BodyRef::Kind body = BodyRef::Kind::kLeaf;
};

/// A group as what is driven sees it, before a stroke.
struct DrivenView {
    bool moving = false;  ///< the side it is on
    bool rises = false;   ///< nothing of it is under the sheet's lower face
    RadiusRange ring;     ///< about the centre of the swing
};

/// Slices of the strip of the bend that is made, at an angle and moved by a pose: what tools that fit keep out of.
class StripSlices {
public:
    virtual ~StripSlices() = default;
    [[nodiscard]] virtual std::vector<Solid> at(Angle angle, const Rigid& then) const = 0;
    /// At the end of the stroke, seen from the held side.
    [[nodiscard]] virtual const std::vector<Solid>& bent() const = 0;
};

/// One brake in its set-up as bodies, motions and exits, for one sheet thickness: all that the rest of this floor knows
/// of the kind of machine. A kind has an implementation of its own (leaf_machine.h, press_machine.h); the constructor
/// of that fills in what is protected here, and nothing changes afterwards. What is asked of every group or solid is
/// data; what is virtual is asked once for a bend, a group or a placing.
///
/// What stands over the sheet along the whole machine, and under it, depends on the *face*: of a leaf brake the face of
/// the leaf, of a press brake the heights of punches and dies.
class Machine {
public:
    Machine(const BrakeInSetup& brake, double thickness_mm, const Vec2& centre)
        : brake_(brake), thickness_mm_(thickness_mm), centre_(centre), driven_centres_{centre} {}
    virtual ~Machine() = default;
    Machine(const Machine&) = delete;
    Machine& operator=(const Machine&) = delete;

    [[nodiscard]] const BrakeInSetup& brake() const { return brake_; }
    [[nodiscard]] double thickness_mm() const { return thickness_mm_; }

    // ---- bodies ----
    [[nodiscard]] const std::vector<Body>& bodies() const { return bodies_; }
    [[nodiscard]] std::size_t faceCount() const { return under_.size(); }
    /// As plans name it; empty where faces have no names.
    [[nodiscard]] const std::string& faceName(std::size_t face) const { return face_names_[face]; }
    /// The sheet lies on bed and leaf, or on strips of some thickness: faces are those of the machine, first as it is,
    /// then once more for each such packing. The first is none.
    struct Packed {
        double height_mm = 0;
        bool on_leaf = false;
    };
    [[nodiscard]] std::size_t packingCount() const { return packings_.size(); }
    [[nodiscard]] const Packed& packing(std::size_t packing) const { return packings_[packing]; }
    [[nodiscard]] std::size_t plainFaceCount() const { return faceCount() / packingCount(); }
    [[nodiscard]] std::size_t packingOf(std::size_t face) const { return face / plainFaceCount(); }
    [[nodiscard]] std::size_t plainFaceOf(std::size_t face) const { return face % plainFaceCount(); }
    [[nodiscard]] std::size_t faceWith(std::size_t packing, std::size_t plain_face) const {
        return packing * plainFaceCount() + plain_face;
    }

    /// Bodies as long as the machine: under the sheet, over it, and both.
    [[nodiscard]] const std::vector<std::size_t>& under(std::size_t face) const { return under_[face]; }
    [[nodiscard]] const std::vector<std::size_t>& over(std::size_t face) const { return over_[face]; }
    [[nodiscard]] std::vector<std::size_t> longBodies(std::size_t face) const;
    /// The first and the last of those under the sheet, and what stands over the pieces whatever the face; -1: nothing.
    [[nodiscard]] std::size_t bed() const { return under_.front().front(); }
    [[nodiscard]] std::size_t driven(std::size_t face) const { return under_[face].back(); }
    [[nodiscard]] int beam() const { return beam_; }
    /// What stands behind both ends, with its inside faces in machine x; -1: nothing.
    [[nodiscard]] int frames() const { return frames_; }
    [[nodiscard]] Interval betweenFrames() const { return between_frames_; }

    // ---- rows of tools ----
    [[nodiscard]] const std::vector<ToolFamily>& families() const { return families_; }
    /// Of a tool that is of use in the set-up.
    [[nodiscard]] std::size_t familyOf(ToolId tool) const { return family_of_[tool.index()]; }
    /// A piece as a body.
    [[nodiscard]] BodyRef bodyOf(ToolId tool) const { return {bodies_[families_[familyOf(tool)].high].what, tool}; }
    /// The first tool of a family.
    [[nodiscard]] ToolId toolOf(std::size_t family) const;
    /// True when tools stand under the sheet too: they are chosen after the upper ones, and the part lies in them.
    [[nodiscard]] bool hasLowerRow() const { return has_lower_row_; }
    /// What pieces of a row are.
    [[nodiscard]] BodyRef::Kind pieceOf(ToolRow row) const {
        return row == ToolRow::kUpper ? upper_piece_ : lower_piece_;
    }
    /// True when some upper tools have horns: strings may end in them.
    [[nodiscard]] bool hasHorns() const { return has_horns_; }
    /// True when the part may be laid under one string among several; else all that stands is one.
    [[nodiscard]] bool hasStations() const { return has_stations_; }
    /// False for tools of other heights.
    [[nodiscard]] virtual bool standsOn(std::size_t family, std::size_t face) const;

    // ---- motion ----
    /// Centre of the arc that bends take, about which the sheet turns; and that about which rings of driven bodies are
    /// told, by packing.
    [[nodiscard]] const Vec2& centre() const { return centre_; }
    [[nodiscard]] const Vec2& drivenCentre(std::size_t packing) const { return driven_centres_[packing]; }
    /// True when both sides rise, each by half of the bend; else the held side lies still.
    [[nodiscard]] bool movesBothSides() const { return moves_both_sides_; }
    /// y at which the flat strip of a bend ends on the held side.
    [[nodiscard]] virtual double stripBack_mm(double allowance_mm) const { return brake_.stripBack_mm(allowance_mm); }
    /// What is driven, against either side of the sheet. `swing` is of the moving side seen from the held one, `half`
    /// of the front (both sides move) or the same.
    [[nodiscard]] virtual DrivenMotions fromDriven(const Swing& swing, const Swing& half,
                                                   std::size_t packing) const = 0;
    /// When what has left the bed may come down on it again late in the stroke.
    [[nodiscard]] virtual bool comesDownLate(double set_rad) const = 0;
    /// The greatest angle that is folded, and whether one that is set is within it.
    [[nodiscard]] virtual double mostAngle_rad() const = 0;
    [[nodiscard]] virtual bool reaches(double set_rad) const = 0;
    /// How much further than the sheet what swings it turns, at the most over the faces, where the panel that swings
    /// lies flat so far; nothing unless it stands off the sheet at the end.
    [[nodiscard]] virtual bool standsOff(const BendMotions& /*motions*/, std::size_t /*packing*/) const {
        return false;
    }
    [[nodiscard]] virtual Angle lead(const BendMotions& /*motions*/, std::size_t /*face*/, double /*flat_mm*/) const {
        return {};
    }
    /// What keeps an angle from being set.
    [[nodiscard]] virtual AngleLimit angleLimit(double /*set_rad*/) const { return angle_limit_; }
    /// How far the lower tools have risen when the sheet is bent so far: as far as the upper ones go into them.
    [[nodiscard]] virtual double rise_mm(double half_rad) const;

    // ---- contact that is meant ----
    /// How far a group keeps, at the least, from what is driven where that does not see it; infinite: always clear.
    [[nodiscard]] virtual double overDriven_mm(const DrivenView& group, const BendMotions& motions,
                                               const std::vector<Vec3>& corners) const = 0;
    /// Whether what is driven may come near a group otherwise than by bearing on it.
    [[nodiscard]] virtual bool drivenSees(const DrivenView& group, const BendMotions& motions, double over_driven_mm,
                                          double clearance_mm) const = 0;
    /// Whether what is driven bears on the group: contact is part of the job.
    [[nodiscard]] virtual bool drivenBears(const DrivenView& group, bool driven_sees) const = 0;

    // ---- what fits ----
    /// Whether tools of a family can make all of a bend's stroke.
    [[nodiscard]] virtual bool fits(std::size_t family, std::size_t face, const BendMotions& motions,
                                    const StripSlices& strip) const = 0;
    /// True when a driven body, with the sheet on it, keeps clear of another one by the margin.
    [[nodiscard]] bool drivenClears(std::size_t driven, std::size_t body, const Motion& body_from_driven,
                                    double margin_mm = 0) const;
    [[nodiscard]] virtual FlatDepth flatDepth(const BendMotions& motions, double clamped_land_mm) const = 0;
    /// How deep the panel that swings must lie flat before the strip for what swings it to bear on it all the way;
    /// none: no matter.
    [[nodiscard]] virtual std::optional<double> sideDepthToSwing_mm(const BendMotions& /*motions*/,
                                                                    const Limits& /*limits*/) const {
        return {};
    }

    /// Whether what swings the sheet does so with this face, where the panel that swings lies flat so far.
    [[nodiscard]] virtual bool swingsWith(std::size_t /*face*/, const BendMotions& /*motions*/, double /*flat_mm*/,
                                          const Limits& /*limits*/) const {
        return true;
    }
    /// With packing: how deep what swings the sheet would press into it at the end of the stroke.
    [[nodiscard]] virtual double packedPresses_mm(std::size_t /*packing*/, const BendMotions& /*motions*/) const {
        return 0;
    }
    /// Where its strips lie, along the bend.
    [[nodiscard]] virtual PackedLie packedLie(std::size_t /*packing*/, const BendMotions& /*motions*/,
                                              const Limits& /*limits*/) const {
        return {};
    }

    // ---- exits ----
    [[nodiscard]] const Exits& exits() const { return exits_; }
    /// How far all upper pieces rise after a stroke that brought the lower ones up by `rise_mm`; 0: they do not get
    /// there.
    [[nodiscard]] virtual double lift_mm(std::size_t face, double rise_mm) const;
    /// Seat to seat with the upper tools as far up as is counted on.
    [[nodiscard]] virtual double openHeight_mm() const;

    // ---- besides ----
    /// None: the sheet is set by a sight line, and no stop is looked for.
    [[nodiscard]] bool isGauged() const { return is_gauged_; }
    [[nodiscard]] const BackGauge* gauge() const { return gauge_; }
    /// Whether it is worked out here if a stroke holds over the shop's tolerances.
    [[nodiscard]] bool knowsTolerances() const { return knows_tolerances_; }

protected:
    std::size_t addBody(BodyRef::Kind what, BodyKind kind, const std::vector<Polygon>& sections, bool driven = false,
                        std::size_t packing = 0);
    /// One family for each section of the tools of use: `add` makes its bodies.
    template <class Add>
    void addFamilies(Add add) {
        family_of_.resize(brake_->toolCount());
        for (const ToolId tool : brake_.tools()) {
            if (joinsFamily(tool)) continue;
            ToolFamily family = newFamily(tool);
            add(tool, family);
            family_of_[tool.index()] = families_.size();
            families_.push_back(std::move(family));
        }
    }

    BrakeInSetup brake_;
    double thickness_mm_;
    Vec2 centre_;
    std::vector<Vec2> driven_centres_;
    std::vector<Packed> packings_{{}};
    Exits exits_;
    std::vector<Body> bodies_;
    std::vector<std::vector<std::size_t>> under_;
    std::vector<std::vector<std::size_t>> over_;
    std::vector<std::string> face_names_;
    int beam_ = -1;
    int frames_ = -1;
    Interval between_frames_;
    std::vector<ToolFamily> families_;
    std::vector<std::size_t> family_of_;
    AngleLimit angle_limit_;
    BodyRef::Kind upper_piece_ = BodyRef::Kind::kBar;
    BodyRef::Kind lower_piece_ = BodyRef::Kind::kDie;
    bool has_lower_row_ = false;
    bool has_horns_ = false;
    bool has_stations_ = false;
    bool moves_both_sides_ = false;
    bool is_gauged_ = false;
    bool knows_tolerances_ = false;
    const BackGauge* gauge_ = nullptr;

private:
    bool joinsFamily(ToolId tool);
    [[nodiscard]] ToolFamily newFamily(ToolId tool) const;
};

/// The model of a brake's kind. `packings_mm`: what the sheet may be packed up by on a leaf brake.
[[nodiscard]] std::unique_ptr<const Machine> makeMachine(const BrakeInSetup& brake, double thickness_mm,
                                                         const std::vector<double>& packings_mm = {});

}  // namespace tinwright
