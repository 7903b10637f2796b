// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "paper/drawing.h"
#include "scene/fold_view.h"

namespace tinwright::report {

/// The part before a fold and after it, side by side, from the operator's side and above; from the left or the right,
/// whichever shows more of the new fold. Hidden lines are left out, bends are arcs, the new one is drawn heavy.
[[nodiscard]] Drawing partPicture(const FoldScene& scene, const std::string& title);

}  // namespace tinwright::report
