// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/part_on_brake.h>
#include <tinwright/brake/plan/plan.h>
#include <tinwright/part/model/part.h>

#include "paper/drawing.h"

namespace tinwright::report {

/// Cross-section of hems between the tools that close them, closed, and dashed as the first fold left them.
/// Precondition: the step has a closing.
[[nodiscard]] Drawing closingDrawing(const PartOnBrake& folded, const BrakeInSetup& brake, const FoldStep& step,
                                     const std::string& title);

}  // namespace tinwright::report
