// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/base/result.h>
#include <tinwright/part/model/part.h>
#include <tinwright/part/recipe/recipe.h>

namespace tinwright {

/// Develops a recipe into its blank.
///
/// Blank coordinates are the base panel's: a rectangle has its front left corner (where the bends start) at the origin;
/// a polygon keeps the coordinates it was given. panels[0] is the base, then flanges with parents before children and
/// otherwise in the recipe's order; bend i joins panel i + 1. Bend::along has the child on its left.
/// A flat length is the dimension less setback_mm() at each end that carries a bend.
///
/// All issues at once: those of resolveDimensions and checkRecipe, and then "recipe.flat-length" (nothing
/// left between the bends), "recipe.edge.mixed" (flanges of different setback share an edge that is not measured flat),
/// "recipe.outline", "recipe.corner", "recipe.off-edge", "recipe.blank.overlap", "recipe.blank.touch" (a seam that
/// would have to be cut), "recipe.cut-out", "recipe.panel.split", "recipe.bend.no-sheet", "recipe.finished.collide"
/// (two panels in one place when all is folded).
[[nodiscard]] Result<Part> develop(const Recipe& recipe);

}  // namespace tinwright
