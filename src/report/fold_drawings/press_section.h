// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "paper/drawing.h"
#include "scene/fold_view.h"

namespace tinwright::report {

/// The cross-section of a fold on a press brake at the end of the stroke, to scale, seen from the right end of the
/// machine with the operator on the left: dies and bed as they stand, punch and ram down, the sheet bent; dashed as it
/// lay flat, dotted where it is tightest.
[[nodiscard]] Drawing pressSectionDrawing(const FoldView& view, const std::string& title);

/// The same stopped at a first contact, which is ringed; dotted where the stroke would end.
[[nodiscard]] Drawing pressContactDrawing(const FoldView& view, const std::string& title, double depth_mm);

}  // namespace tinwright::report
