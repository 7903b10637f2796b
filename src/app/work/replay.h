// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/report/data/plan_report.h>

namespace tinwright::app {

/// Replays every plan of the report with the independent verifier and enters what it found. A brake with a plan that
/// fails is no longer called feasible. A build without the verifier says so among the warnings.
void replayPlans(PlanReport& report, int threads);

}  // namespace tinwright::app
