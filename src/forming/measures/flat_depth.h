// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "checks/checks.h"
#include "measures/leg.h"

namespace tinwright::forming {

/// Depth of flat sheet on one side of a bend: its panel, and what is joined to it by bends that are not folded yet.
[[nodiscard]] double flatDepth_mm(const FoldAsked& asked, BendId bend, Side side);

}  // namespace tinwright::forming
