// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include <tinwright/geometry/planar.h>
#include <tinwright/part/model/part.h>
#include <tinwright/part/model/pose.h>

#include "kernel/motion.h"

namespace tinwright {

class Machine;

/// Of what is driven.
struct DrivenMotions {
    Motion held;  ///< of the sides of the sheet, seen from it
    Motion moving;
    Motion standing;  ///< and of what stands still
};

/// The motions of one bend's stroke, in the bend's frame. Not movable: motions point at the swings.
struct BendMotions {
    BendMotions(const Machine& machine, double allowance_mm, double set_rad);
    BendMotions(const BendMotions&) = delete;
    BendMotions& operator=(const BendMotions&) = delete;
    double set_rad;
    double strip_front_mm;  ///< y of the flat strip's ends
    double strip_back_mm;
    Swing swing;  ///< of the moving side, seen from the held one
    Swing half;   ///< of the front, seen from what stands still, where both sides move; else the same as `swing`
    Motion pair;  ///< moving side against held side
    Motion held;  ///< sides against what stands still
    Motion moving;
    std::vector<DrivenMotions> from_driven;  ///< and against what is driven, by packing
    std::optional<Motion> late;  ///< of the moving side, when what has left the bed may come down on it again
    double rise_mm = 0;          ///< of lower tools at the end of the stroke, at most
};

/// Where the moving side lies, seen from the held one, when the whole strip is bent to an angle: at the end of the
/// stroke, and when the part has sprung back.
[[nodiscard]] Rigid swungBy(const BendMotions& motions, double angle_rad);
/// The same of either side, seen from what stands still.
[[nodiscard]] Rigid sideSwungBy(const Machine& machine, const BendMotions& motions, bool moving, double angle_rad);

}  // namespace tinwright
