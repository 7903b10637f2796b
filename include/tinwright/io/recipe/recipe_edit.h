// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

#include <tinwright/base/result.h>
#include <tinwright/part/recipe/recipe.h>

namespace tinwright {

/// The text of a recipe with another value for one dimension, which has a value of its own; all else is kept, in its
/// order. `file` is its name for issues. Code "recipe.edit" when the text does not hold that dimension.
[[nodiscard]] Result<std::string> recipeTextWith(std::string_view text, const std::string& file,
                                                 const Dimension& dimension, double value_mm);

}  // namespace tinwright
