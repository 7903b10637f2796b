// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/brake/plan/plan.h>
#include <tinwright/part/made/as_made.h>
#include <tinwright/part/made/put_right.h>

namespace tinwright {

/// A line that would put a size right, and what came of the rest with it moved.
struct TriedLine {
    LineMove move;
    Verdict verdict = Verdict::kUndecided;  ///< of the best brake
    std::string brake;                      ///< feasible: on which, and in what order
    std::vector<std::vector<BendId>> order;
};

/// Of a part whose folds came out otherwise than drawn: what was measured, and what follows from it.
struct MadeReport {
    Part drawn;
    std::vector<MadeBend> made;
    double inside_radius_mm = -1;     ///< that all sizes are told with; negative: each bend's own
    std::vector<SizeChange> changes;  ///< of the finished part, all else folded as drawn
    std::vector<TriedLine> lines;     ///< empty too when nobody looked
};

}  // namespace tinwright
