// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/base/stroke.h>
#include <tinwright/part/model/part.h>
#include <tinwright/part/model/pose.h>

namespace tinwright {

/// The panel on one side of a bend.
[[nodiscard]] inline PanelId panelAt(const Bend& bend, Side side) {
    return side == Side::kParent ? bend.parent : bend.child;
}

/// The panel of a bend that is held, and the one that moves.
[[nodiscard]] inline PanelId heldPanel(const Bend& bend, Side hold) { return panelAt(bend, hold); }
[[nodiscard]] inline PanelId movingPanel(const Bend& bend, Side hold) { return panelAt(bend, opposite(hold)); }

/// Unit vector on the blank, square to the bend line, from it to one of its sides.
[[nodiscard]] inline Vec2 towards(const Bend& bend, Side side) {
    return side == Side::kChild ? bend.toward_child : Vec2(-bend.toward_child);
}

/// Axes of the frame of a fold, as rows, in the blank frame of the held panel: x along the machine, y back from the
/// nose line, z up, so that the bend's inside face is up (src/fold/NOTES.md, "Frames").
[[nodiscard]] Eigen::Matrix3d foldAxes(const Bend& bend, Side hold);

/// From the blank frame of the held panel to the frame of a fold of this bend, with x = 0 at Bend::origin: z = 0 is the
/// lower face, and the flat strip of the bend ends at y = `strip_back_mm` on the held side. Before the stroke it holds
/// for the moving panel too.
[[nodiscard]] Rigid foldFromBlank(const Bend& bend, Side hold, double thickness_mm, double strip_back_mm);

}  // namespace tinwright
