// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "setting.h"
#include "tools.h"

namespace tinwright::replay {

/// Two level faces between which hems are closed, as all pieces of a step have them; y of profiles. `opens_mm`: z of the upper one over the lower, at most.
struct FlatsTold {
    double front_mm = 0;
    double back_mm = 0;
    double opens_mm = 0;
};
[[nodiscard]] FlatsTold flatsOf(const Brake& brake, const FoldStep& step, double thickness_mm);

/// A tool while hems are closed: where it is told, moved up by one of these, it stands closed and open.
struct ClosingTool {
    Body body;
    double closed_z_mm = 0;
    double open_z_mm = 0;
    bool lifted_away = false;   ///< gone by the time the part leaves
};

/// All that stands on and round the machine, with z = 0 at the lower of the flats. `step` has its pieces where they stand as the part lies then.
[[nodiscard]] std::vector<ClosingTool> closingTools(const Brake& brake, const FoldStep& step, const Setting& setting, const HemClosing& told);

}  // namespace tinwright::replay
