// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/plan/plan.h>

namespace tinwright::report {

/// "10 mm, 85°; inside radius 1.60 mm (air bending: 0.16 of the V); usual for 1.5 mm sheet: 9 mm". Precondition: the
/// press brake is in one V.
[[nodiscard]] std::string veeText(const BrakeInSetup& brake, double thickness_mm);

/// The punches and dies that stand at any time of a plan, at most: "punches G200; dies V10-50 + 2 x V10-20".
[[nodiscard]] std::string punchesAndDies(const BrakeInSetup& brake, const Plan& plan);

}  // namespace tinwright::report
