// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>

#include "machine/setting.h"

namespace tinwright::replay {

/// The pieces of one row of a step, ascending in x as the step has them; those of unknown kinds are left out.
[[nodiscard]] std::vector<PlacedBar> piecesOf(const BrakeInSetup& brake, const FoldStep& step, ToolRow row);

/// The V of a step's dies; none without dies.
[[nodiscard]] std::optional<Vee> veeOf(const BrakeInSetup& brake, const FoldStep& step);

/// What the punches and dies of a step have in common, and in `wrong` whatever keeps them from being used together, in
/// this V, and for this angle. False when the fold cannot be replayed at all.
[[nodiscard]] bool setUpPress(const BrakeInSetup& brake, const FoldStep& step, Setting& setting,
                              std::vector<std::string>& wrong);

}  // namespace tinwright::replay
