// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/plan/plan.h>

#include "solids/bodies.h"

namespace tinwright::replay {

/// The face that a step names; nullptr when the leaf has none of that name.
[[nodiscard]] const LeafFace* faceOf(const LeafBrake& leaf, const FoldStep& step);

/// What of a leaf brake is as long as the machine, in the fold's frame; the leaf at rest, the beam where it is when the
/// pieces stand on something so thick.
[[nodiscard]] Body beamBody(const BrakeInSetup& brake, const FoldStep& step, double thickness_mm);
[[nodiscard]] Body bedBody(const BrakeInSetup& brake, const FoldStep& step);
[[nodiscard]] Body leafBody(const BrakeInSetup& brake, const FoldStep& step, const LeafFace& face);

}  // namespace tinwright::replay
