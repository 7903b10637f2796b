// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>

#include "strokes/stroke.h"

namespace tinwright::replay {

/// Bars: known kinds, own widths, within inventory and machine, none overlapping. False when a kind is unknown,
/// so that no bodies can be made.
[[nodiscard]] bool checkBars(const BrakeInSetup& brake, const FoldStep& step, const ReplayedMachine& machine,
                             std::vector<std::string>& wrong);

/// What the shop allows: gaps, uncovered ends, sheet that lies flat where it must, covered share; and overhang past the
/// machine's ends.
void checkLimits(const Scene& scene, const Limits& limits, std::vector<std::string>& wrong);

/// Whether the pieces of a step leave no more of the setting's stretches open than the shop allows, in any row that
/// must cover them. Returns the share that is covered by the last of those.
double checkSpans(const Part& part, const BrakeInSetup& brake, const FoldStep& step, const Setting& setting,
                  const Limits& limits, std::vector<std::string>& wrong);

}  // namespace tinwright::replay
