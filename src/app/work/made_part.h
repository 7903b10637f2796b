// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

#include <tinwright/base/result.h>
#include <tinwright/sequence/plan/planner.h>

#include "files/inputs.h"

namespace tinwright::app {

/// A part developed for the inside radius that a brake gives, whatever radius is drawn.
struct MadePart {
    Part part;
    BrakeInSetup brake;
    std::optional<BrakeResult> planned;  ///< when it was planned too
    std::string radius_words;            ///< which radius, from what, and what is drawn
};

/// How a part is made on a brake.
struct MadeHow {
    bool drawn_radius = false;  ///< keep the radius as drawn, and tell what the brake gives
    bool plan = true;           ///< else in the usual set-up
    PlanOptions options;
};

/// The part on one brake of the shop. A drawing is no recipe: its blank stays as it is, and that is told.
/// Issues: those of develop(), when the part cannot be had with that radius.
[[nodiscard]] Result<MadePart> madeOn(const PartChoice& choice, const Inputs& inputs, std::size_t brake,
                                      const MadeHow& how);

}  // namespace tinwright::app
