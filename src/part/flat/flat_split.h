// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/base/issue.h>
#include <tinwright/part/model/part.h>

namespace tinwright {

/// One stretch of a bend line from edge to edge of the sheet, and the strip about it.
struct FlatStrip {
    Vec2 origin = Vec2::Zero();
    Vec2 along = Vec2::UnitX();
    StripSpan span;         ///< of the line; after splitting: wherever the strip has sheet
    double half_mm = 0;     ///< half the strip's width
    std::size_t joint = 0;  ///< strips of one joint lie on one line
    std::string place;

    [[nodiscard]] Vec2 left() const { return {-along.y(), along.x()}; }
    /// A rectangle about the line: from..to along it, low..high to its left. Counter-clockwise.
    [[nodiscard]] Polygon band(double from, double to, double low, double high) const;
};

/// The sheet with all strips taken out.
struct FlatSplit {
    std::vector<Region> panels;  ///< by their lowest left corner
    struct Sides {
        std::size_t left = 0;
        std::size_t right = 0;
    };
    std::vector<Sides> sides;  ///< panels beside each strip
    std::vector<FlatStrip> strips;
};

/// Issue "bend.panels" when a strip has no panel on one side, or several, or the same on both.
[[nodiscard]] FlatSplit splitSheet(const Region& sheet, std::vector<FlatStrip> strips, Issues& issues);

}  // namespace tinwright
