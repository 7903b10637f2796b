// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include <tinwright/brake/shop/cutting.h>

/// ISO 9013, thermal cutting: what a cut edge may be off by. Ranges of thickness run from over their lower to and with
/// their upper bound, ranges of length from and with the lower to under the upper, as the standard has them.
namespace tinwright {

/// Limit deviation, plus or minus, of a length on the blank: class 1 for laser, class 2 for plasma. Nothing for shear
/// and drill, for sheet over 20 mm, lengths from 8 m and the blanks of the table.
[[nodiscard]] std::optional<double> cuttingTolerance_mm(CutProcess process, double thickness_mm, double length_mm);

/// Perpendicularity or angularity tolerance u of the standard's ranges 1 (finest) to 5, from memory; nothing for
/// another range.
[[nodiscard]] std::optional<double> cutSquareness_mm(int range, double thickness_mm);

}  // namespace tinwright
