// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

#include <tinwright/brake/plan/plan.h>
#include <tinwright/part/model/part.h>

namespace tinwright {

/// A straight edge of the part, square to the bend, that a rule can be put against to place bars.
struct BarDatum {
    std::string edge;  ///< NamedEdge::name
    double x_mm = 0;   ///< where it lies on the fold's axis (0: left end of the bend, see PlacedTool)
};

/// The edge to measure the bars of a fold from: an edge square to the bend, at least 5 mm long, that lies flat with the
/// clamped sheet when the fold begins. Of the panels that the fold's bends join if one of them has such an edge, else
/// of any panel; among those the one nearest to the left end of the bend, then the one on the left. None when no such
/// edge has a name. `formed_before`: bends formed when the fold begins. `inside_radius_mm`: inside radius of all formed
/// bends (see baseFromPanels).
[[nodiscard]] std::optional<BarDatum> barDatum(const Part& part, BendMask formed_before, double inside_radius_mm,
                                               const FoldStep& step);

}  // namespace tinwright
