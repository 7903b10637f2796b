// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <Eigen/Core>

#include <tinwright/base/forbidden_stroke.h>
#include <tinwright/base/ids.h>
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/plan/plan.h>
#include <tinwright/fold/setup/stroke.h>
#include <tinwright/geometry/interval_set.h>
#include <tinwright/part/model/part.h>

namespace tinwright {

class Machine;

/// Simulates single folds of one part on one brake. Every geometric fact is computed once and kept, so an engine
/// is for one thread; two engines give the same answers.
///
/// With Demand::kHolds a stroke is called possible when it is shown to hold, with the bars and the place chosen for
/// that; all else is called impossible, with ReasonCode::kNotHeld where the part as drawn goes or may go.
///
/// A stroke is possible only if proven free of contact over its whole swing for every way in which the strip may form,
/// with bars that cover the bend, and with a proven way in and out. It is impossible when contact is witnessed or no
/// string of bars, no place of the part, no exit among those tried will do; else it is undecided.
class FoldEngine {
public:
    /// `radii_mm`: inside radii of all bends, when some are made on another machine (Demand::kPossible only); those
    /// made here have the brake's.
    FoldEngine(const Part& part, const Shop& shop, const BrakeInSetup& brake, Demand demand = Demand::kPossible,
               const std::vector<double>& radii_mm = {});
    /// The same on a machine whose model is given (src/fold/machine/machine.h): any kind.
    FoldEngine(const Part& part, const Shop& shop, std::unique_ptr<const Machine> machine,
               Demand demand = Demand::kPossible, const std::vector<double>& radii_mm = {});
    ~FoldEngine();
    FoldEngine(const FoldEngine&) = delete;
    FoldEngine& operator=(const FoldEngine&) = delete;

    /// The unformed bends, grouped by the line on which they lie in this state.
    [[nodiscard]] std::vector<BendMask> lines(BendMask formed);
    /// All strokes of a state, ascending. Of a line of more than six bends only the whole, single bends
    /// and runs of neighbours are listed; `all` gets false then.
    [[nodiscard]] std::vector<ListedStroke> strokes(BendMask formed, bool& all);

    /// True when two bends lie on one line in some state. Exact for bends up to ten apart in the tree, else assumed.
    [[nodiscard]] bool mayShareStroke(BendId a, BendId b);

    /// How a bend of a stroke is held, the first being held as the stroke says. Precondition: they lie on one line in
    /// this state.
    [[nodiscard]] Side holdOf(BendMask formed, const Stroke& stroke, BendId bend);
    /// Bends whose state decides how these lie to one another, and so how each is held; none of them.
    [[nodiscard]] BendMask between(BendMask bends) const;

    /// How the base panel is turned in the machine frame when the part lies ready for the stroke, and after it.
    [[nodiscard]] Eigen::Matrix3d machineFromBase(BendMask formed, const Stroke& stroke, bool after) const;

    /// The bends whose state decides how the part lies for a bend, held so.
    [[nodiscard]] BendMask lieHangsOn(BendId bend, Side hold) const;

    /// The stroke with bars chosen for it: fewest pieces, comfortable clearance before tight.
    [[nodiscard]] StrokeResult check(BendMask formed, const Stroke& stroke);
    /// The same, unless that takes a planar search for a way out: then nothing.
    [[nodiscard]] std::optional<StrokeResult> checkQuickly(BendMask formed, const Stroke& stroke);
    /// The stroke with what stands already; impossible here means only that it does not do. `tight_too`: less than the
    /// comfortable clearance will do.
    [[nodiscard]] StrokeResult checkWithSetup(BendMask formed, const Stroke& stroke, const Setup& setup,
                                              bool tight_too = true);

    /// Sections of which upper tools are in use: bars of two depths, straight and gooseneck punches.
    [[nodiscard]] std::size_t sectionCount() const;
    /// All upper tools that stand are of that section.
    [[nodiscard]] bool isOfSection(const Setup& setup, std::size_t section) const;
    /// The stroke with upper tools of one section alone, and straight ways; impossible here means only that it does not
    /// do. `tight_too`: as checkWithSetup.
    [[nodiscard]] StrokeResult checkWithSection(BendMask formed, const Stroke& stroke, std::size_t section,
                                                bool tight_too = true);

    /// What any stroke that folds these bends, the first of them held so, takes at least in every state that agrees
    /// with `formed` on `known`.
    [[nodiscard]] StrokeLowerBound lowerBound(BendMask formed, BendMask known, const Stroke& stroke);

    /// Worst proven clearance of a possible stroke.
    struct Clearance {
        double gap_mm = 0;
        double at_deg = 0;
        std::array<BodyRef, 2> between;  ///< as FoldStep::clearance_between
    };
    [[nodiscard]] Clearance clearance(BendMask formed, const Stroke& stroke, const StrokeResult& result);

    /// Whether a possible stroke holds over the shop's tolerances with the bars and the place that the result has.
    [[nodiscard]] Holding holding(BendMask formed, const Stroke& stroke, const StrokeResult& result);

    /// Of a possible stroke on a press brake: where its back gauge stands, or why nowhere. `formed_lines_mm`, by bend:
    /// by how much the lines of those that are formed may be off on the sheet; empty: as the shop sets one.
    [[nodiscard]] GaugeChoice gauge(BendMask formed, const Stroke& stroke, const StrokeResult& result,
                                    const std::vector<double>& formed_lines_mm = {});

    /// Whether more of the sheet lies on the held side of a stroke, at the back of a press brake, than on the other.
    [[nodiscard]] bool holdsLargerSide(BendMask formed, const Stroke& stroke);

    /// What a step says of how it is held: bends, panels held, face, tools and their cover.
    [[nodiscard]] FoldStep describeHold(BendMask formed, const Stroke& stroke, const StrokeResult& result);

    /// Everything for the bench, but turns, flips and what changed since the fold before. `formed_lines_mm`: as
    /// gauge().
    [[nodiscard]] FoldStep describe(BendMask formed, const Stroke& stroke, const StrokeResult& result,
                                    const std::vector<double>& formed_lines_mm = {});

    /// Why a stroke is not possible: that its bends cannot be pressed together in this state, else the first contacts.
    [[nodiscard]] std::vector<Reason> explain(BendMask formed, const Stroke& stroke);
    /// The same of what `fact` forbids, with that much of the part alone whose place it settles; told as "once these
    /// are folded".
    [[nodiscard]] std::vector<Reason> explain(const ForbiddenStroke& forbidden);

    /// The few bends to conflict set for an impossible stroke: in every state that agrees with this one on them it, and
    /// what the answer says besides, is impossible. What is left out does not matter; there may be other such sets of
    /// bends.
    [[nodiscard]] ForbiddenStroke conflictSet(BendMask formed, const Stroke& stroke);
    /// The same for bends that do not lie on one line in this state, or cannot be pressed together; nothing when they
    /// can.
    [[nodiscard]] std::optional<ForbiddenStroke> conflictSetOfLine(BendMask formed, const Stroke& stroke);

    /// The same on another thread's behalf would give the same; these count the work done here.
    struct Work {
        std::uint64_t checks = 0;
        std::uint64_t records = 0;
        std::uint64_t pairs = 0;
    };
    [[nodiscard]] Work work() const;

    class Impl;  ///< private to this floor

private:
    std::unique_ptr<Impl> impl_;
};

}  // namespace tinwright
