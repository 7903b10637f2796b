// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/brake/plan/plan.h>

#include "paper/drawing.h"

namespace tinwright::report {

/// How the part is turned over and round before a fold, as arrows seen from above with the operator at the foot. An
/// empty drawing when it stays as it lay.
[[nodiscard]] Drawing handlingDrawing(const FoldStep& step);

}  // namespace tinwright::report
