// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/report/data/made_report.h>

#include "data/json_values.h"

namespace tinwright::report {

/// `as_made` of the plan file.
[[nodiscard]] Json madeJson(const Part& now, const MadeReport& made, BendMask formed);

}  // namespace tinwright::report
