// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/sequence/plan/planner.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>

namespace tinwright::app {

/// The brake in the set-up in which the part goes as drawn, else in the usual one.
[[nodiscard]] BrakeInSetup setupAsDrawn(const Part& part, const Shop& shop, std::size_t brake, PlanOptions options);

}  // namespace tinwright::app
