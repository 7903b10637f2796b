// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include <tinwright/report/data/plan_report.h>

namespace tinwright {

/// The plan shown on one brake as an animated glTF 2.0 binary (Khronos; ISO/IEC 12113): nodes for bed, beam, leaf,
/// bars, every panel and slices of every bend; an animation for each fold, "fold 1: NAME", in which leaf and sheet
/// swing to the set angle and the part springs back, so that at its end the nodes stand as the part does. Metres, y up.
/// Bars that do not stand in a fold are scaled to nothing in it. How the part is turned between folds and how bars go
/// in and out is not animated. Precondition: the result has a plan.
[[nodiscard]] std::string planGlb(const PlanReport& report, const BrakeReport& brake);

}  // namespace tinwright
