// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "strokes/standing.h"
#include "strokes/stroke.h"

namespace tinwright::replay {

/// The hems of a step: their bends, before and after they are closed.
struct HemStep {
    const Part* part = nullptr;        ///< as it is to be, every hem told as one
    const Standing* folded = nullptr;  ///< after the step's first folds
    const Standing* closed = nullptr;  ///< and closed
    std::vector<BendId> bends;         ///< those of the step that are hems
};

/// Replays how the hems of a step are closed: what is told of it, tools that come together, the part that comes and
/// goes, and the returns on their way down. `scene` is that of the fold.
void checkClosing(const HemStep& hems, const Shop& shop, const Scene& scene, std::vector<std::string>& wrong);

}  // namespace tinwright::replay
