// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/io/json/json_cursor.h>
#include <tinwright/part/recipe/recipe.h>

namespace tinwright {

/// Reads a length: a number, or {"value" | "is", "plus", "name", "locked", "measured"}.
[[nodiscard]] Dimension readDimension(const JsonCursor& at);
/// The member, when there.
[[nodiscard]] Dimension dimensionOf(const JsonCursor& object, std::string_view key);
[[nodiscard]] Dimension needDimension(const JsonCursor& object, std::string_view key);
[[nodiscard]] Measured measuredOf(const JsonCursor& object);
/// A list of points: [x, y] or {"x", "y", "edge"}.
[[nodiscard]] std::vector<OutlinePoint> readPoints(const JsonCursor& at, std::size_t most);

[[nodiscard]] Sheet readSheet(const JsonCursor& at);
[[nodiscard]] AllowanceChoice readAllowance(const JsonCursor& at);
[[nodiscard]] BasePanel readBase(const JsonCursor& at);
[[nodiscard]] Flange readFlange(const JsonCursor& at);
[[nodiscard]] Corner readCorner(const JsonCursor& at);
[[nodiscard]] CutOut readCutOut(const JsonCursor& at);

}  // namespace tinwright
