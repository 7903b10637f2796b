// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

/// General tolerances of ISO 2768-1, which hold where a drawing says none. Classes: 'f' fine, 'm' medium, 'c' coarse,
/// 'v' very coarse. Ranges run from over their lower to and with their upper bound. Nothing for another class and for
/// sizes the standard does not cover.
namespace tinwright {

/// Plus or minus, for a linear size (table 1). From 0.5 to 4000 mm ('f': 2000, 'v': from over 3).
/// Class c below 6 mm is from memory: the copy that was read prints other numbers there.
[[nodiscard]] std::optional<double> iso2768Linear_mm(char tolerance_class, double size_mm);

/// Plus or minus, for an angle by its shorter leg (table 3). Over 400 mm, and class c over 120 mm, from memory.
[[nodiscard]] std::optional<double> iso2768Angle_deg(char tolerance_class, double shorter_leg_mm);

}  // namespace tinwright
