// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/brake/plan/plan.h>
#include <tinwright/part/model/pose.h>

namespace tinwright::report {

/// The part moved from where it lay, and the ram (if there is one) from where the lift put it.
struct WayPose {
    Rigid part;
    double ram_mm = 0;
};

/// Where the part is on its way out of a fold, point after point, from where it lay (src/fold/NOTES.md, in the frame of
/// the fold there). Straight between two of them: a tilt comes in small steps.
[[nodiscard]] std::vector<WayPose> posesOnWayOut(const FoldStep& step);

}  // namespace tinwright::report
