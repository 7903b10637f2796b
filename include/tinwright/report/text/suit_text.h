// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/part/recipe/recipe_changes.h>
#include <tinwright/sequence/remedies/suit.h>

namespace tinwright {

/// What suiting a part to the bars of one brake came to.
struct BrakeSuit {
    BrakeInSetup brake;  ///< that all is told for
    SuitResult result;
    std::vector<std::vector<DimensionChange>> changes;  ///< of each suggestion: everything that it changes
};

/// Suggestions are numbered through all brakes, from 1, in this order. Refers to part and shop, which outlive it.
struct SuitReport {
    const Part& part;
    const Shop& shop;
    std::vector<Tweakable> dimensions = {};  ///< that might change
    std::vector<std::string> locked = {};    ///< names of those that must not
    std::vector<BrakeSuit> brakes = {};
    std::vector<std::string> warnings = {};
};

/// Fits kReportColumns columns.
[[nodiscard]] std::string suitText(const SuitReport& report);

/// Format "tinwright-suit/1" (src/report/PLAN_FORMAT.md).
[[nodiscard]] std::string suitJson(const SuitReport& report);

}  // namespace tinwright
