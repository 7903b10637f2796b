// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/part/recipe/recipe_changes.h>

namespace tinwright::report {

/// "inside_width 74 -> 72 mm (-2)"
[[nodiscard]] std::string changeText(const std::string& name, double from_mm, double to_mm);
/// What changes besides the dimensions that are named.
[[nodiscard]] std::string alsoChanges(const std::vector<DimensionChange>& changes,
                                      const std::vector<std::string>& names);

}  // namespace tinwright::report
