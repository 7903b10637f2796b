// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>

#include <tinwright/geometry/planar.h>

namespace tinwright {

/// The end of a sheet cut square to its edge: `corner` is the end of one face, `out` points off the sheet, `across`
/// through its thickness. Unit vectors.
struct SheetEnd {
    Vec2 corner = Vec2::Zero();
    Vec2 out = Vec2::UnitX();
    Vec2 across = Vec2::UnitY();
    double thickness_mm = 0;
    double depth_mm = 0;  ///< how far the sheet goes back

    [[nodiscard]] std::array<Vec2, 4> corners() const;
};

/// Between two sheets, 0 when they touch or overlap.
[[nodiscard]] double gap_mm(const SheetEnd& a, const SheetEnd& b);

/// The share of the end face of `a` that has sheet of `b` before it.
[[nodiscard]] double coveredShare(const SheetEnd& a, const SheetEnd& b);

}  // namespace tinwright
