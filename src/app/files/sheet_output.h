// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/base/issue.h>
#include <tinwright/brake/shop/material.h>
#include <tinwright/report/data/plan_report.h>

#include "options/option.h"

namespace tinwright::app {

/// Drawings that are asked for beside a plan.
struct SheetChoice {
    std::optional<std::string> sheet;  ///< file for the bench sheet
    std::optional<std::string> svg;    ///< folder for its drawings
    std::optional<std::string> glb;    ///< file for the folds as moving bodies
    [[nodiscard]] bool any() const { return sheet || svg || glb; }
};

/// --sheet, --svg and --glb.
[[nodiscard]] std::vector<Option> sheetOptions(SheetChoice& choice);

/// Writes what was asked for; each file whole or not at all. `inputs`: files read, which none may replace.
[[nodiscard]] Issues writeSheet(const SheetChoice& choice, const std::vector<std::string>& inputs,
                                const PlanReport& report, const std::optional<Material>& material);

}  // namespace tinwright::app
