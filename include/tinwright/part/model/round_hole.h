// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include <tinwright/part/model/part.h>

namespace tinwright {

/// The circle whose chords a polygon is; none for any other shape. All corners lie on it to 1 µm, and it has at
/// least 12 of them: a hexagon is a hexagon.
[[nodiscard]] std::optional<RoundHole> roundHole(const Polygon& polygon);

}  // namespace tinwright
