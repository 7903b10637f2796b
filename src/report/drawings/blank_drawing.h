// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/forming/rules/finding.h>

#include "drawings/blank_marks.h"
#include "paper/drawing.h"

namespace tinwright::report {

/// The blank seen from its drawn face, to scale: outline and cut-outs with ordinates from two edges, bends numbered in
/// fold order with angle and direction, bend lines (chain) and the sight lines of the bends that fold up (dashed); an
/// arrow along the grain when the part says it; and the lines along which findings say that the sheet is weak.
[[nodiscard]] Drawing blankDrawing(const Part& part, const std::vector<BendMark>& marks,
                                   const std::vector<Finding>& findings = {});

/// The other face, for bends that fold down: their sight lines are scribed there. Left and right are exchanged.
[[nodiscard]] Drawing otherFaceDrawing(const Part& part, const std::vector<BendMark>& marks);

/// True when some bend folds down.
[[nodiscard]] bool needsOtherFace(const Part& part);

}  // namespace tinwright::report
