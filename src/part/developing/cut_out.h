// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "developing/layout.h"

namespace tinwright {

/// A hole to be taken from panels and strips, in blank coordinates.
struct Cutter {
    std::optional<std::size_t> cut_out;  ///< into Recipe::cut_outs; none: a corner relief
    double off_sheet_mm2 = 0;            ///< of it
    Polygon polygon;  ///< counter-clockwise; circles are inscribed: the sheet is never said to be less than it is
    std::vector<std::size_t> panels;  ///< that it takes something from
    std::vector<std::size_t> strips;  ///< by flange
};

/// Area that two polygons share, mm².
[[nodiscard]] double sharedArea_mm2(const Polygon& a, const Polygon& b);

/// All cut-outs and corner reliefs of a recipe, placed and checked. Issues "recipe.cut-out...", "recipe.corner".
[[nodiscard]] std::vector<Cutter> placeCutters(const Recipe& recipe, const Layout& layout,
                                               std::vector<std::string>& warnings, Issues& issues);

/// The outline of a cut-out about its own centre along its panel's axes, turned.
[[nodiscard]] Polygon cutOutShape(const CutOut& cut);
/// How far the true shape (not its polygon) reaches from its centre in a direction of the panel's axes.
[[nodiscard]] double cutOutReach_mm(const CutOut& cut, const Vec2& direction);

}  // namespace tinwright
