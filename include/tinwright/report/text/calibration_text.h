// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/part/allowance/test_strip.h>

namespace tinwright {

/// For people. `into` is the shop file it was written into, empty when it was not.
[[nodiscard]] std::string calibrationText(const std::vector<Calibration>& calibrations, const std::string& into);

/// Format "tinwright-calibration/1", described in src/report/PLAN_FORMAT.md.
[[nodiscard]] std::string calibrationJson(const std::vector<Calibration>& calibrations);

}  // namespace tinwright
