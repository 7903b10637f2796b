// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/base/angle.h>
#include <tinwright/base/words.h>
#include <tinwright/forming/rules/finding.h>
#include <tinwright/part/model/part.h>

/// Measures and names as a person at the bench reads them.
namespace tinwright::forming {

/// millimetres() rounded up, for what is the least that will do.
[[nodiscard]] std::string roundedUp(double length_mm);
/// "90°", "92.5°".
[[nodiscard]] std::string degrees(Angle angle);
[[nodiscard]] std::string bendNames(const Part& part, const std::vector<BendId>& bends);
/// The same as a finding's feature: "all bends" when it is about every one of several.
[[nodiscard]] std::string bendsFeature(const Part& part, const std::vector<BendId>& bends);

/// A finding without words yet, whatever the brake.
[[nodiscard]] Finding startFinding(std::string id, Severity severity, std::string feature,
                                   std::vector<BendId> bends = {});

}  // namespace tinwright::forming
