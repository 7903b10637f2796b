// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "paper/drawing.h"
#include "paper/paper_view.h"

namespace tinwright::report {

/// The view of a window at a usual scale in the middle of a frame, with 2 mm left round it. What is drawn is clipped to
/// the frame from here on, and the drawing notes its scale.
[[nodiscard]] PaperView framedView(Drawing& drawing, const Box& window, const Box& frame);

}  // namespace tinwright::report
