// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/part/recipe/recipe.h>

namespace tinwright {

/// A dimension that is not the same in two recipes.
struct DimensionChange {
    std::string name;  ///< its own, or its place in the file
    double from_mm = 0;
    double to_mm = 0;
    std::string follows;  ///< name of the dimension that tells it; empty: it has its own value
};

/// Every dimension of `after` with another value than in `before`; both have their references filled in and differ in
/// nothing but values.
[[nodiscard]] std::vector<DimensionChange> dimensionChanges(const Recipe& before, const Recipe& after);

/// This inside radius at every bend; hems keep their gap.
void setInsideRadius(Recipe& recipe, double inside_radius_mm);

}  // namespace tinwright
