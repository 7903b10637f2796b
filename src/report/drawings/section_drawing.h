// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "paper/drawing.h"
#include "scene/fold_view.h"

namespace tinwright::report {

/// A cross-section square to the bend, to scale, seen from the right end of the machine with the operator on the left:
/// the held side solid, the moving side in outline at the start, dashed at the set angle and dotted where it is
/// tightest; bars, bed, leaf and beam; what is not cut in thin outline. Of a press brake: pressSectionDrawing().
[[nodiscard]] Drawing sectionDrawing(const FoldView& view, const std::string& title);

/// The same stopped at a first contact, which is ringed.
[[nodiscard]] Drawing contactDrawing(const FoldView& view, const std::string& title, double depth_mm);

}  // namespace tinwright::report
