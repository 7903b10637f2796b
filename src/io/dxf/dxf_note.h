// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string_view>

#include "dxf/bends_file.h"

namespace tinwright {

/// What a text of a drawing says of a bend: "UP 90 R1.5", "down 45° r=2": a direction, then in any order an angle in
/// degrees and an inside radius in units of the drawing. Nothing when it is no such text.
[[nodiscard]] std::optional<BendSaid> bendNote(std::string_view text, double mm_per_unit);

}  // namespace tinwright
