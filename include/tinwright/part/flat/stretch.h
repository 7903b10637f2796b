// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/base/result.h>
#include <tinwright/part/model/part.h>

namespace tinwright {

/// Two bends at opposite edges of a panel: between them a blank can be stretched.
struct StretchSpan {
    PanelId panel;
    BendId from;
    BendId to;
    double lines_mm = 0;  ///< between the two bend lines
};

/// Every pair of parallel bends with their panel between them, in the order of the part.
[[nodiscard]] std::vector<StretchSpan> stretchSpans(const Part& part);

/// The part with one panel longer (or shorter) by so much: everything on the far side of a line across the panel is
/// moved. The line is put where it cuts only edges square to it, as near to the middle as can be: nothing else changes.
/// Issue "stretch.no-place": no such line (a cut-out, or a slanted edge, everywhere in the way); those of
/// partFromFlat().
[[nodiscard]] Result<Part> stretched(const Part& part, const StretchSpan& span, double by_mm);

}  // namespace tinwright
