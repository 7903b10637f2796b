// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include <tinwright/base/issue.h>
#include <tinwright/brake/shop/material.h>
#include <tinwright/report/data/plan_report.h>

#include "options/command_line.h"

namespace tinwright::app {

/// Writes what was asked for of --sheet, --svg and --glb; each file whole or not at all.
[[nodiscard]] Issues writeSheet(const CommandLine& line, const PlanReport& report,
                                const std::optional<Material>& material);

}  // namespace tinwright::app
