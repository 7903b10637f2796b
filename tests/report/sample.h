// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/report/data/plan_report.h>

namespace tinwright::sample {

/// A channel: a base 100 along x and 40 along y, with flanges "front" (y = 0) and "back" (y = 40), both up.
/// Sheet 1.5, r = 0, strips drawn without width. Named edges: base.left (x = 0), base.right, front.edge, back.edge.
Part channel();

/// One loose-bar brake "bench magnet" with bars B60 and B40, and one finger brake "finger".
Shop shop();

/// front first (base held), then back (base held), both with bars B60 and B40.
Plan channelPlan();

/// A feasible report of the channel on the first brake, with one plan.
PlanReport feasible(const Part& part, const Shop& shop);

/// No order, with a reason for either side held.
PlanReport infeasible(const Part& part, const Shop& shop);

/// The front runs into bar B60 at 66 degrees when the back is folded with the base held; told in these words.
Reason frontHitsBar();

}  // namespace tinwright::sample
