// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/plan/plan.h>

#include "solids/bodies.h"

namespace tinwright::replay {

/// What has no end on a side.
inline constexpr double kFarOut_mm = 5000.0;

/// The pieces of one row of a step, ascending in x as the step has them; those of unknown kinds are left out.
[[nodiscard]] std::vector<PlacedTool> piecesOf(const BrakeInSetup& brake, const FoldStep& step, ToolRow row);

/// A section's (x, y) becomes the machine's (y, z); prisms are drawn along the machine's x.
[[nodiscard]] Rigid alongMachine();
/// A section in the machine's (y, z) drawn along the machine.
[[nodiscard]] Shape drawnAlong(const Region& section, double from_mm, double to_mm);
/// The same over the machine's length, in the frame of a step.
[[nodiscard]] Shape machineLong(const BrakeInSetup& brake, const FoldStep& step, const Polygon& section);

[[nodiscard]] Body carried(Body body, Carrier carrier);

/// A piece in the fold's frame, called so. One of the upper row is raised by `upper_mm`.
[[nodiscard]] Body pieceBody(const Brake& brake, const PlacedTool& placed, const std::string& called, double upper_mm);

/// What stands at the ends that nothing can hang past: blocks without end outside the machine's length.
[[nodiscard]] std::vector<Body> frameBodies(const BrakeInSetup& brake, const FoldStep& step);

}  // namespace tinwright::replay
