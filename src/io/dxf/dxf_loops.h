// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "entities/dxf_curves.h"

namespace tinwright {

/// Closed loops of cut lines.
struct DxfLoops {
    std::vector<Polygon> loops;  ///< simple or not, counter-clockwise
    std::size_t doubled = 0;     ///< lines, or pieces of them, drawn more than once
    std::size_t trimmed = 0;     ///< ends cut back to a crossing
    std::vector<double> closed_gaps_mm;
};

/// Chains curves to loops. Lines that overlap are cut where the others end and doubles dropped; ends that nothing meets
/// are closed to the nearest such end within `gap_mm`, two lines at their crossing. Issues: "dxf.open" (an end that
/// nothing meets), "dxf.branch" (more than two ends at a point).
[[nodiscard]] Result<DxfLoops> chainLoops(const std::vector<DxfCurve>& curves, double gap_mm, const std::string& file);

/// The one outline with its cut-outs. Issues: "dxf.outline" (none, or several), "dxf.loose" (a piece within a cut-out),
/// "dxf.crossing" (loops that cross themselves or one another).
[[nodiscard]] Result<Region> sheetOf(const std::vector<Polygon>& loops, const std::string& file);

}  // namespace tinwright
