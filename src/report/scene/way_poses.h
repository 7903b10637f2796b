// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/brake/plan/plan.h>
#include <tinwright/part/model/pose.h>

namespace tinwright::report {

/// Where the part is on its way out of a fold, point after point, from where it lay (src/fold/NOTES.md, in the frame of
/// the fold there). Straight between two of them: a tilt comes in small steps.
[[nodiscard]] std::vector<Rigid> posesOnWayOut(const FoldStep& step);

}  // namespace tinwright::report
