// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/part/model/part.h>
#include <tinwright/report/data/plan_report.h>

namespace tinwright::sample {

/// A magnetic folder with bars 30, 45, 60 and 100 wide, all numbers of our own.
[[nodiscard]] Shop smallShop();

/// A press brake in its V of 12, with straight punches (P100L has a horn) and dies 30, 60 and 100 wide; all numbers of
/// our own.
[[nodiscard]] Shop pressShop();

/// A part of random size and kind (a bent section, or a tray with cut-outs), the same for the same seed.
[[nodiscard]] Part randomPart(unsigned seed);

/// A plan for a leaf brake or a press brake that folds all bends in the part's order without asking whether it can be:
/// enough to draw.
/// A leaf brake for a sheet, or the press brake in its V, whose bends get a radius of 2 mm.
[[nodiscard]] BrakeInSetup inUse(const Brake& brake, double thickness_mm = 1.5);
[[nodiscard]] Plan anyPlan(const Part& part, const Brake& brake);

/// The report of that plan.
[[nodiscard]] PlanReport reportOf(const Part& part, const Shop& shop);

}  // namespace tinwright::sample
