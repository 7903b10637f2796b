// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include <tinwright/base/angle.h>
#include <tinwright/base/ids.h>
#include <tinwright/base/stroke.h>
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/plan/body_ref.h>
#include <tinwright/brake/plan/holding.h>
#include <tinwright/brake/plan/reason.h>
#include <tinwright/brake/plan/trouble.h>

namespace tinwright {

enum class Verdict {
    kFeasible,
    kWithTrouble,  ///< an order works, and the best one spoils something by the program's own checks
    kInfeasible,
    kUndecided,
};
[[nodiscard]] const char* toText(Verdict verdict);  ///< "feasible", "feasible with trouble", "infeasible", "undecided"
/// Whether an order is known to work.
[[nodiscard]] constexpr bool goes(Verdict verdict) {
    return verdict == Verdict::kFeasible || verdict == Verdict::kWithTrouble;
}
/// Of orders of which the best spoils so much.
[[nodiscard]] constexpr Verdict verdictWith(const Spoils& spoilt) {
    return spoilt.any() ? Verdict::kWithTrouble : Verdict::kFeasible;
}
/// The better the higher: feasible, with trouble, undecided, infeasible.
[[nodiscard]] int rankOf(Verdict verdict);

/// One piece standing on the machine during a fold. x is the fold's own axis: along the machine from left to
/// right as the operator stands in front of the leaf, 0 at the fold's left end (the least x of its bend strips).
struct PlacedTool {
    ToolId tool;
    double from_mm = 0;
    double to_mm = 0;
};

/// How a piece, or the part, leaves: what kind of move it is, for the bench, and the motion, for the verifier.
struct ExitMove {
    enum class Kind {
        kPieceUp,
        kPieceAlong,
        kPieceBack,
        kPieceRound,  ///< by several moves, back or forward, up or down and along
        kPartUp,
        kPartForward,
        kPartAlong,
        kPartTilted,
    };
    Kind kind = Kind::kPartUp;
    int piece = -1;  ///< into FoldStep::tools, -1 for the part
    /// Waypoints of the moved body relative to where it stood during the fold, straight between them; the last is
    /// free. A body point p goes to (x, y, z) + tilt(p), the tilt turning y towards z about the line y = z = 0.
    struct Point {
        double x_mm = 0, y_mm = 0, z_mm = 0, tilt_deg = 0;
        double ram_mm = 0;  ///< of a ram with its punches, over where the lift put it; negative: under it
    };
    std::vector<Point> path;
    /// Of a piece: how far it is drawn back before it is lifted, by hand; its path has on top of it what the part may
    /// have to give way.
    double drawn_back_mm = 0;
    double out_of_vee_mm = 0;  ///< of the part: how far it is lifted out of the V in which it lies, before it goes
                               ///< forward
};

/// A finger of a back gauge. x is the fold's own axis, as for bars.
struct PlacedFinger {
    double from_mm = 0;
    double to_mm = 0;
};

/// Where a press brake's back gauge stands for a fold, and what of the part lies against it before the stroke.
struct GaugeStop {
    enum class Touch {
        kEdge,  ///< a cut edge, square to the sheet
        kFace,  ///< the outside face of a flange that stands square to the sheet on the die
        kBend,  ///< the outside of a bend past a right angle, where it reaches furthest back
    };
    Touch touch = Touch::kEdge;
    PanelId panel;            ///< whose edge or face it is; of a bend, its child
    std::string edge;         ///< NamedEdge; empty when it has none, and for faces and bends
    int bends_between = 0;    ///< formed bends between what is touched and this one: 0 for an edge of the flat sheet
    double distance_mm = 0;   ///< from the bend line (tip of the punch) back to the stop
    double fingers_z_mm = 0;  ///< underside of the fingers over the die's top
    std::vector<PlacedFinger> fingers;  ///< one or two, from left to right
    double tolerance_mm = 0;  ///< the bend line's place on the sheet, plus or minus: gauging, the cut of an edge over
                              ///< the width that is gauged, and each bend between, its line off by what its own stop
                              ///< told
    [[nodiscard]] bool isFlat() const { return bends_between == 0; }
};

/// Why a fold is set by a sight line where a back gauge would set it.
enum class GaugeTrouble {
    kNoGauge,     ///< the brake has none
    kNoEdge,      ///< parallel to the bend within its travel
    kOutOfReach,  ///< there are edges, and the fingers get at none
};

/// What came of looking for a stop.
struct GaugeChoice {
    std::optional<GaugeStop> stop;
    std::optional<GaugeTrouble> trouble;  ///< without a stop
};

/// How a hem is closed after its fold, between flats that come together: clamp bars and bed of a leaf brake, or the jaw
/// of a die. The part lies in front of the machine, its folded edge pushed in. Frame: as of a fold that holds the child
/// (x = 0 at the left end of the strips, y from front to back, z up), z = 0 the lower face of the parent; y as the
/// brake's profiles have it.
struct HemClosing {
    double part_x_mm = 0;     ///< machine x of x = 0
    bool turned = false;      ///< half round from how the part lay in the fold, which held the parent
    double front_mm = 0;      ///< y at which the flats begin
    double inserted_mm = 0;   ///< from there to the outside of the closed fold
    double stands_mm = 0;     ///< z of the highest of the return before it is closed: so far the flats open at least
    double height_mm = 0;     ///< closed: two thicknesses and the gap
    bool lifted_out = false;  ///< loose bars: the part comes out upwards, since it does not draw out forward
};

/// Strips under the sheet on a leaf brake, along the bend: on the bed, and on the leaf where something hangs under what
/// it swings.
struct Packing {
    double height_mm = 0;
    bool on_leaf = false;
    double setback_mm = 0;  ///< to which the machine is set for this fold
    /// No wider than this: up to what hangs under the sheet. None: 50 mm and more.
    std::optional<double> on_bed_mm;
    std::optional<double> on_leaf_mm;
};

/// One fold of a plan.
struct FoldStep {  // NOLINT(bugprone-reserved-identifier,readability-identifier-naming): clang 14 names the copy of its
                   // array
    Stroke stroke;              ///< which bends it makes, and how they are held
    std::vector<PanelId> held;  ///< panels of bends that lie clamped, or at the back of a press brake, ascending
    bool drawn_face_up = true;
    double turn_deg = 0;   ///< turn in the plane of the bed since the fold before, -180 < turn <= 180
    bool flip = false;     ///< other face up than at the fold before
    double part_x_mm = 0;  ///< machine x (0 = its left end) of the fold's x = 0
    std::string leaf_face;
    std::optional<Packing> packing;
    Care care;
    std::vector<PlacedTool> tools;  ///< ascending in x
    std::vector<int> tools_in;      ///< order in which they are put in
    std::vector<int> tools_out;     ///< and taken out; empty when the part leaves with all standing
    /// kOnBeam: how far beam and pieces are raised before anything else moves, before the fold and after it.
    double lift_in_mm = 0;
    double lift_out_mm = 0;
    /// All simply lifts away, or is drawn out forward under tools that are raised all the way: before the fold and
    /// after it. Else the shop's time for a special way is counted.
    bool plain_ways = true;
    std::vector<ExitMove> way_in;   ///< told backwards: how all would come out before the fold
    std::vector<ExitMove> way_out;  ///< in order
    double covered_share = 0;       ///< of the bend length that lies under bars, 0..1
    Angle angle;                    ///< wanted
    Angle set_angle;                ///< to which the sheet is swung or pressed, before it springs back
    Angle leaf_angle;     ///< of a leaf brake: to which the leaf is set for it, more where it stands off the sheet
    double depth_mm = 0;  ///< of a press brake: how far the punch goes from where it touches the flat sheet
    double sight_mm = 0;  ///< distance of the sight line from the edge below
    std::string sight_from_edge;                ///< NamedEdge; empty when no straight edge is parallel
    std::optional<GaugeStop> gauge_stop;        ///< of a press brake; never a reason for a fold to be impossible
    std::optional<GaugeTrouble> gauge_trouble;  ///< of a press brake without a stop
    double clearance_mm = 0;                    ///< proven lower bound over the swing
    std::array<BodyRef, 2> clearance_between;   ///< of the part, and what it comes near to; unknown: nothing does
    double clearance_at_deg = 0;  ///< of the bend, on a press brake too, whose sides rise by half of it each
    Holding over_tolerances;
    double overhang_mm = 0;             ///< of the part past a machine end; negative: past the left end
    std::optional<HemClosing> closing;  ///< of hems, as soon as they are folded
    /// The brake as it is set for the fold: packed up or not.
    [[nodiscard]] BrakeInSetup on(const BrakeInSetup& brake, double thickness_mm) const {
        return packing ? brake.packed(packing->height_mm, packing->on_leaf, thickness_mm) : brake;
    }
    [[nodiscard]] std::vector<BendId> bends() const { return bendList(stroke.bends); }
    /// To which leaf or press are set.
    [[nodiscard]] Angle toSet() const { return leaf_angle.deg() > set_angle.deg() ? leaf_angle : set_angle; }
};

/// An order with all that is needed to fold it.
struct Plan {
    int rank = 0;           ///< from 1
    long long cost_ms = 0;  ///< planTime_ms() of its folds (plan_time.h)
    Spoils spoils;          ///< of its folds
    double worst_clearance_mm = 0;
    bool tight = false;
    std::vector<FoldStep> folds;
    /// Sizes of runs of folds, together all of them: within a run the folds may be made in any order, each such order
    /// was looked at and takes the same time. Empty: not worked out.
    std::vector<int> any_order;
};

/// Facts that together exclude every order; without any one of them the others admit one.
struct Cause {
    std::vector<Reason> reasons;
};

/// `first` is folded before `then`, or in the same stroke, in every order that works.
struct ForcedOrder {
    BendId first;
    BendId then;
    std::vector<Reason> reasons;  ///< what stops `first` afterwards; empty when it could not be told in few facts
};

/// How far the search for orders went.
struct SearchWork {
    bool proven_best = false;  ///< no order is better than the first plan
    long long least_ms = 0;    ///< no order takes less that is as comfortable as the first plan
    std::uint64_t states = 0;  ///< sets of formed bends whose folds were looked at, of 2 to the power of the bends
    std::uint64_t partial_orders = 0;  ///< taken further
    std::uint64_t fold_checks = 0;     ///< folds placed on the machine
    std::uint64_t shadows_cast = 0;    ///< places of a panel or strip in a fold, looked at once each
    std::uint64_t pairs_swept = 0;     ///< of such places, moving past one another
};

/// What planning on one brake came to.
struct BrakeResult {
    BrakeInSetup brake;  ///< that all this is told for: a press brake in one V, the same for all bends
    Verdict verdict = Verdict::kUndecided;
    Spoils spoilt_anyway;         ///< by findings on the part and on the brake, whatever the order
    std::string orders_feasible;  ///< decimal; empty: unknown
    std::string orders_total;
    std::vector<Plan> plans;
    /// When no order works: why, each cause enough by itself, so that a remedy must lift all of them. Empty when that
    /// is not known.
    std::vector<Cause> causes;
    std::vector<Reason> reasons;      ///< when none works: of the state in which the search got furthest
    std::vector<ForcedOrder> forced;  ///< when an order works; those that follow from two others are left out
    bool forced_all_known = true;     ///< false: a limit left pairs of bends unanswered
    SearchWork work;
    std::string model;          ///< what a "none" is relative to
    bool only_holding = false;  ///< folds that are not shown to hold over the tolerances did not count
    std::vector<std::string> notes;
    bool as_pinned = false;  ///< a person has pinned something that bears on this brake: what does not keep it did not
                             ///< count
    std::optional<Verdict> without_pins = std::nullopt;  ///< when no order works as pinned: what it comes to without
};

}  // namespace tinwright
