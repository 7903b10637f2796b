// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "paper/drawing.h"
#include "scene/fold_view.h"

namespace tinwright::report {

/// The cross-section of a fold on a leaf brake (FoldDrawings): the held side solid, the moving side in outline at the
/// start, dashed at the set angle and dotted where it is tightest; bars, bed, leaf and beam.
[[nodiscard]] Drawing leafSectionDrawing(const FoldView& view, const std::string& title);

/// The same stopped at a first contact, which is ringed.
[[nodiscard]] Drawing leafContactDrawing(const FoldView& view, const std::string& title, double depth_mm);

}  // namespace tinwright::report
