// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "developing/layout.h"

namespace tinwright {

/// Where two flanges of a corner meet, seen from the corner of their parent's flat.
struct CornerPlace {
    std::size_t first = 0;   ///< the flange whose left end is there
    std::size_t second = 0;  ///< the one whose right end is
    std::size_t parent = 0;  ///< panel
    Vec2 at = Vec2::Zero();
    Vec2 along_first = Vec2::UnitX();   ///< from there along the first one's edge
    Vec2 along_second = Vec2::UnitY();  ///< and along the second one's
    Layout::End first_end, second_end;
    [[nodiscard]] bool isSquare() const { return std::abs(along_first.dot(along_second)) < 1e-9; }
};
[[nodiscard]] CornerPlace cornerPlace(const Recipe& recipe, const Layout& layout, const Corner& corner);

/// The tips of a panel's corners that stand out between two strips by less than can be cut (kShortestCut_mm): the sheet
/// is without them.
[[nodiscard]] std::vector<Polygon> cornerTips(const Recipe& recipe, const Layout& layout, std::size_t panel);

/// The relief of a corner, as asked or as much larger as it takes for its edges to leave none that is too short to be
/// cut. None when the corner has none.
[[nodiscard]] std::optional<Polygon> cornerRelief(const Recipe& recipe, const Layout& layout, const Corner& corner);

}  // namespace tinwright
