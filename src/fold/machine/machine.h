// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/fold/kernel/vee_bearing.h>
#include <tinwright/geometry/interval_set.h>

#include "kernel/shadow.h"

namespace tinwright {

enum class BodyKind { kBed, kBeam, kLeaf, kBarLow, kBarHigh, kDie, kFrame, kJaw };

/// A section that runs along x, in the frame of a fold, moved in by the contact tolerance. Rings are about the hinge
/// for a leaf, about the centre of the swing for all else.
struct Body {
    std::string name;
    BodyKind kind = BodyKind::kBed;
    bool driven = false;  ///< moves in the frame of a fold: the leaf; dies and bed of a press brake
    std::vector<Convex2> section;
    ToolPieces pieces;  ///< of the section
    /// The same not moved in (but for rounding): clearances are told from these. So are contacts of bars with formed
    /// strips: a bar that rides up the fillet of a wall lifts long before it is a contact tolerance deep in it.
    ToolPieces strict;
};

/// How far the strict sections are moved in: an arc starts at a bar's underside, and touching there is no lift.
inline constexpr double kStrictInset_mm = 1e-3;

/// How much shorter a part of a bar is at its ends than the rest of it.
struct Relief {
    Micron left_um = 0;
    Micron right_um = 0;
    [[nodiscard]] Interval shortened(Interval bar) const { return {bar.lo + left_um, bar.hi - right_um}; }
};

/// Bars of one section and end relief, whatever their width.
struct BarFamily {
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

/// The tools of one brake as bodies, for one sheet thickness.
///
/// What stands over the sheet along the whole machine, and under it, depends on the *face*: of a leaf brake the face of
/// the leaf, of a press brake the heights of punches and dies.
class Machine {
public:
    Machine(const BrakeInSetup& brake, double thickness_mm);

    [[nodiscard]] const BrakeInSetup& brake() const { return brake_; }
    [[nodiscard]] bool isPress() const { return bearing_.has_value(); }
    [[nodiscard]] double thickness_mm() const { return thickness_mm_; }
    [[nodiscard]] const std::vector<Body>& bodies() const { return bodies_; }

    [[nodiscard]] std::size_t faceCount() const { return under_.size(); }
    [[nodiscard]] std::string faceName(std::size_t face) const;
    /// Bodies as long as the machine: under the sheet, over it, and both.
    [[nodiscard]] const std::vector<std::size_t>& under(std::size_t face) const { return under_[face]; }
    [[nodiscard]] const std::vector<std::size_t>& over(std::size_t face) const { return over_[face]; }
    [[nodiscard]] std::vector<std::size_t> longBodies(std::size_t face) const;
    /// What stands behind both ends of a press brake; -1: nothing.
    [[nodiscard]] int frames() const { return frames_; }
    /// How upper pieces and the part get out.
    struct Exits {
        bool loose = false;     ///< pieces are lifted off by hand, one after the other
        double opening_mm = 0;  ///< what holds the pieces lifts by so much
        bool in_place = false;  ///< pieces can be loosened and taken out singly
    };
    [[nodiscard]] const Exits& exits() const { return exits_; }
    /// Of a leaf brake.
    [[nodiscard]] std::size_t bed() const { return 0; }
    [[nodiscard]] int beam() const { return beam_; }  ///< -1: nothing stands over the bars
    [[nodiscard]] std::size_t leaf(std::size_t face) const { return first_leaf_ + face; }
    [[nodiscard]] const Vec2& hinge() const { return hinge_; }

    [[nodiscard]] const std::vector<BarFamily>& families() const { return families_; }
    /// Of a tool that is of use in the set-up.
    [[nodiscard]] std::size_t familyOf(ToolId tool) const { return family_of_[tool.index()]; }
    /// The first bar of a family.
    [[nodiscard]] ToolId barOf(std::size_t family) const;
    /// False for punches and dies of other heights.
    [[nodiscard]] bool standsOn(std::size_t family, std::size_t face) const;

    /// Centre of the arc that bends take, about which the sheet turns; and the y at which the flat strip of a bend ends
    /// on the held side.
    [[nodiscard]] const Vec2& centre() const { return nose_centre_; }
    [[nodiscard]] double stripBack_mm(double allowance_mm) const { return brake_.stripBack_mm(allowance_mm); }
    /// Of a press brake.
    [[nodiscard]] const VeeBearing& bearing() const { return *bearing_; }
    [[nodiscard]] const Vee& vee() const { return vee_; }
    /// How far under their top all dies leave that V free.
    [[nodiscard]] double veeFree_mm() const { return vee_free_mm_; }
    /// How far punches and ram can be raised after a stroke that brought the dies up by `rise_mm`; 0: the ram does not
    /// come down that far.
    [[nodiscard]] double lift_mm(std::size_t face, double rise_mm) const;
    /// Seat to seat with the ram as far up as it is counted on to go.
    [[nodiscard]] double openHeight_mm() const;

    /// True when the leaf, swung to the angle with the sheet on it, keeps clear of this body by the margin.
    [[nodiscard]] bool leafClears(std::size_t leaf, std::size_t body, const Motion& body_from_leaf,
                                  double margin_mm = 0) const;

private:
    struct Heights {  // of a press brake's face
        double punch_mm = 0;
        double die_mm = 0;
    };
    void addLeafBrake();
    void addPressBrake();
    void addFrames();
    void addFaces();
    std::size_t addBody(std::string name, BodyKind kind, const std::vector<Polygon>& sections, bool driven = false);
    void addFamily(ToolId tool);
    [[nodiscard]] BarFamily familyOfTool(const Tool& tool, ToolRow row) const;
    void addBarBodies(const Bar& bar, BarFamily& family);
    void addPunchBodies(const Punch& punch, BarFamily& family);
    void addDieBodies(const Die& die, BarFamily& family);
    void addJawBodies(const Die& die, BarFamily& family);

    BrakeInSetup brake_;
    Exits exits_;
    double thickness_mm_;
    Vec2 nose_centre_;
    Vec2 hinge_ = Vec2::Zero();
    std::vector<Body> bodies_;
    std::vector<std::vector<std::size_t>> under_;
    std::vector<std::vector<std::size_t>> over_;
    int beam_ = -1;
    int frames_ = -1;
    std::size_t first_leaf_ = 0;
    std::vector<BarFamily> families_;
    std::vector<std::size_t> family_of_;
    std::vector<Heights> heights_;
    std::optional<VeeBearing> bearing_;
    Vee vee_;
    double vee_free_mm_ = 0;
};

}  // namespace tinwright
