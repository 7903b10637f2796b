// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/plan/plan.h>

#include "solids/bodies.h"

namespace tinwright::replay {

/// What all punches and all dies of a step have in common: the heights of the first of each, 0 where there is none.
struct PressHeights {
    double punch_mm = 0;
    double die_mm = 0;
};
[[nodiscard]] PressHeights heightsOf(const BrakeInSetup& brake, const FoldStep& step);

/// The ram over its punches, whose seat is at `seat_mm`; the bed under its dies, whose top is `die_mm` over it.
[[nodiscard]] Body ramBody(const BrakeInSetup& brake, const FoldStep& step, double seat_mm);
[[nodiscard]] Body pressBedBody(const BrakeInSetup& brake, const FoldStep& step, double die_mm);
/// What stands behind both ends of a press brake, if anything.
[[nodiscard]] std::vector<Body> sideFrameBodies(const BrakeInSetup& brake, const FoldStep& step);

}  // namespace tinwright::replay
