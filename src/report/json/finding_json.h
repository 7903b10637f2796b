// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/forming/rules/finding.h>

#include "data/json_values.h"

namespace tinwright::report {

/// As src/report/CHECK_FORMAT.md describes `findings[]`.
[[nodiscard]] Json findingsJson(const Part& part, const std::vector<Finding>& findings);

}  // namespace tinwright::report
