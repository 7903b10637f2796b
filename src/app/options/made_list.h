// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/base/result.h>
#include <tinwright/part/made/as_made.h>

namespace tinwright::app {

/// "left=35.2,right=36" of --made and "left=88" of --made-angle, each text as it was given, in the part's order. Codes:
/// "order.bend" (no such bend), "made.form" (no "NAME=NUMBER"), "made.range", "made.twice".
[[nodiscard]] Result<std::vector<MadeBend>> parseMade(const Part& part, const std::vector<std::string>& sizes,
                                                      const std::vector<std::string>& angles);

}  // namespace tinwright::app
