// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include <tinwright/brake/plan/plan.h>

namespace tinwright::report {

/// "±0.1 mm sheet, ±0.2 to 0.5 mm cutting, ±0.25 mm bend lines, ±1° bends".
[[nodiscard]] std::string toleranceText(const ToleranceBox& box);
/// "holds over ±0.1 mm sheet, ...", or that it is not shown to, and by how much it fails.
[[nodiscard]] std::string holdingText(const Part& part, const BrakeInSetup& brake, const Holding& holding);

/// What is not shown of a fold that does not hold: "lacks 0.8 mm between lip_front and bar B60". Precondition: it was
/// looked at and does not hold.
[[nodiscard]] std::string openWords(const Part& part, const BrakeInSetup& brake, const Holding& holding);

}  // namespace tinwright::report
