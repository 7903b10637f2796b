// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/plan/plan.h>

#include "machine/leaf_motion.h"
#include "solids/bodies.h"

namespace tinwright::replay {

/// The face that a step names; nullptr when the leaf has none of that name.
[[nodiscard]] const LeafFace* faceOf(const LeafBrake& leaf, const FoldStep& step);

/// What the leaf turns about, seen from a sheet that may be packed up: the hinge is lower by that, and the setback is
/// that for a sheet so much thicker, where it is not fixed.
[[nodiscard]] Hinge hingeOf(const LeafBrake& leaf, const FoldStep& step, double thickness_mm);
/// How far bed and leaf lie under the sheet.
[[nodiscard]] double packedBy_mm(const FoldStep& step);
/// And the leaf under what bears on the sheet.
[[nodiscard]] double leafPackedBy_mm(const FoldStep& step);

/// What of a leaf brake is as long as the machine, in the fold's frame; the leaf at rest, the beam where it is when the
/// pieces stand on something so thick.
[[nodiscard]] Body beamBody(const BrakeInSetup& brake, const FoldStep& step, double thickness_mm);
[[nodiscard]] Body bedBody(const BrakeInSetup& brake, const FoldStep& step, const Hinge& hinge);
[[nodiscard]] Body leafBody(const BrakeInSetup& brake, const FoldStep& step, const LeafFace& face, const Hinge& hinge);

}  // namespace tinwright::replay
