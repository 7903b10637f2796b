// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <string>
#include <string_view>

#include <tinwright/base/result.h>
#include <tinwright/part/developing/develop.h>
#include <tinwright/part/recipe/recipe.h>

/// The format "tinwright-part/1", written out field by field in src/io/NOTES.md; schema:
/// src/io/schema/part.schema.json.
namespace tinwright {

inline constexpr std::string_view kPartFormat = "tinwright-part/1";

/// Reads a recipe; `file` is its name for issues. Safe on any bytes. All issues at once, from syntax to names that lead
/// nowhere; what needs geometry is said by develop().
[[nodiscard]] Result<Recipe> readRecipe(std::string_view text, const std::string& file);

/// The same from a file.
[[nodiscard]] Result<Recipe> readRecipeFile(const std::string& path);

/// Reads and develops: what a program wants of a part file. `measured` is the shop's table, for recipes that name it as
/// their rule.
[[nodiscard]] Result<Part> readPartFile(const std::string& path,
                                        const std::shared_ptr<const MeasuredBends>& measured = nullptr);

}  // namespace tinwright
