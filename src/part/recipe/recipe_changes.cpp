// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/part/recipe/recipe_changes.h>

#include <cmath>

#include <tinwright/base/contract.h>

namespace tinwright {

namespace {

constexpr double kSame_mm = 1e-9;

std::vector<const Dimension*> dimensionsOf(const Recipe& recipe) {
    std::vector<const Dimension*> all;
    forEachDimension(recipe, [&](const Dimension& dimension) { all.push_back(&dimension); });
    return all;
}

}  // namespace

std::vector<DimensionChange> dimensionChanges(const Recipe& before, const Recipe& after) {
    const std::vector<const Dimension*> old_ones = dimensionsOf(before);
    const std::vector<const Dimension*> new_ones = dimensionsOf(after);
    TINWRIGHT_REQUIRE(old_ones.size() == new_ones.size(), "the recipes differ in values alone");
    std::vector<DimensionChange> changes;
    for (std::size_t i = 0; i < old_ones.size(); ++i) {
        if (std::abs(old_ones[i]->value_mm - new_ones[i]->value_mm) <= kSame_mm) continue;
        const Dimension& now = *new_ones[i];
        changes.push_back({now.name.empty() ? now.place : now.name, old_ones[i]->value_mm, now.value_mm, now.is});
    }
    return changes;
}

void setInsideRadius(Recipe& recipe, double inside_radius_mm) {
    recipe.inside_radius_mm = inside_radius_mm;
    for (Flange& flange : recipe.flanges) flange.inside_radius_mm = -1;
}

}  // namespace tinwright
