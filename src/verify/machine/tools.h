// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/plan/plan.h>

#include "machine/setting.h"
#include "solids/bodies.h"

namespace tinwright::replay {

/// A section in the machine's (y, z) drawn along the machine.
[[nodiscard]] Shape drawnAlong(const Region& section, double from_mm, double to_mm);

/// Bodies of the machine in the fold's frame, with the leaf at rest, or punches and dies on the flat sheet.
[[nodiscard]] std::vector<Body> barBodies(const BrakeInSetup& brake, const FoldStep& step,
                                          double thickness_mm);  ///< and
                                                                 ///< punches
                                                                 ///< and dies
[[nodiscard]] Body beamBody(const BrakeInSetup& brake, const FoldStep& step, double thickness_mm);
[[nodiscard]] Body bedBody(const BrakeInSetup& brake, const FoldStep& step);
[[nodiscard]] Body leafBody(const BrakeInSetup& brake, const FoldStep& step, const Setting& setting);
/// The ram over its punches, the bed under its dies.
[[nodiscard]] Body ramBody(const BrakeInSetup& brake, const FoldStep& step, const Setting& setting);
[[nodiscard]] Body pressBedBody(const BrakeInSetup& brake, const FoldStep& step, const Setting& setting);
/// What stands behind both ends of a press brake, if anything.
[[nodiscard]] std::vector<Body> sideFrameBodies(const BrakeInSetup& brake, const FoldStep& step);
/// What stands at the ends that nothing can hang past: blocks without end outside the machine's length.
[[nodiscard]] std::vector<Body> frameBodies(const BrakeInSetup& brake, const FoldStep& step);

/// The leaf at rest with its face taken back by `back_mm` (what the sheet pushes it back), and less `off_mm` all
/// round; empty when nothing of it is left.
[[nodiscard]] std::vector<Prism> leafPrisms(const BrakeInSetup& brake, const FoldStep& step, const Setting& setting,
                                            double back_mm, double off_mm);

}  // namespace tinwright::replay
