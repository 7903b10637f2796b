// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>

#include "strokes/stroke.h"

namespace tinwright::replay {

/// Bars: known kinds, own widths, within inventory and machine, none overlapping. False when a kind is unknown,
/// so that no bodies can be made.
[[nodiscard]] bool checkBars(const BrakeInSetup& brake, const FoldStep& step, std::vector<std::string>& wrong);

/// What the shop allows: gaps, uncovered ends, clamped width, covered share; and overhang past the machine's ends.
void checkLimits(const Scene& scene, const Limits& limits, std::vector<std::string>& wrong);

/// Whether the pieces of a step leave no more of these stretches open than the shop allows, on a press brake those of
/// both rows. Returns the share that is covered, there by punches.
double checkSpans(const Part& part, const BrakeInSetup& brake, const FoldStep& step, const std::vector<Span>& spans,
                  const Limits& limits, std::vector<std::string>& wrong);

}  // namespace tinwright::replay
