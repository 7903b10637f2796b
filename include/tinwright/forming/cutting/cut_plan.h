// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <tinwright/brake/shop/cutting.h>
#include <tinwright/forming/rules/finding.h>
#include <tinwright/part/model/part.h>

/// What the shop's way of cutting makes of a blank: which cut-outs are cut, which are drilled afterwards, and what it
/// cannot make well.
///
///     const CutPlan plan = cutPlan(part, shop.cutting.value_or(cuttingOf(CutProcess::kPlasma)));
///     for (const DrilledHole& hole : plan.drilled) ...             // the drill list
///     const Region path = cutRegion(part, plan);                   // what stays on layer CUT
namespace tinwright {

/// Square distance of a point from an edge of the flat blank.
struct EdgeDistance {
    std::string edge;  ///< NamedEdge
    double distance_mm = 0;
};

/// One place of the drill list. A slot that is too narrow to cut gives two, one at each end.
struct DrilledHole {
    std::string name;                ///< of the cut-out; "NAME end 1", "NAME end 2" for a slot
    std::size_t cut_out = 0;         ///< into Part::cut_outs
    double diameter_mm = 0;          ///< final
    Vec2 centre = Vec2::Zero();      ///< blank coordinates
    std::vector<EdgeDistance> from;  ///< two edges that are not parallel, those of its own panel first; fewer when the
                                     ///< blank has no such edges
    double pilot_mm = 0;             ///< first drill; never over the final diameter
    std::optional<double> cut_pilot_mm;  ///< a circle of this diameter is cut for it; none: only the centre is marked
    std::string reason;
};

struct CutPlan {
    CutProcess process = CutProcess::kPlasma;
    std::vector<DrilledHole> drilled;  ///< in the order of Part::cut_outs
    std::vector<std::size_t> cut;      ///< cut-outs that stay, into Part::cut_outs
    /// Ids "cut.hole", "cut.narrow", "cut.by-hand", "cut.corner", "cut.web". None is a fault: the blank is what is
    /// asked for.
    std::vector<Finding> findings;
    std::optional<double> kerf_mm;  ///< none: not said for this thickness
    std::string kerf_words;         ///< a sentence for the bench
    std::string dross_words;        ///< empty: none to speak of
    std::string film_words;         ///< empty: not said
};

/// Deterministic; findings in the order of the rules above, then of the cut-outs.
[[nodiscard]] CutPlan cutPlan(const Part& part, const Cutting& cutting);

/// The blank as it is cut: without the holes of the drill list, with their pilots.
[[nodiscard]] Region cutRegion(const Part& part, const CutPlan& plan);

}  // namespace tinwright
