// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <utility>
#include <vector>

#include <tinwright/geometry/planar.h>

namespace tinwright::report {

/// A plane figure as convex pieces that may touch and overlap, with the border of all together.
struct PieceOutline {
    std::vector<Polygon> pieces;                ///< counter-clockwise
    std::vector<std::pair<Vec2, Vec2>> border;  ///< stretches of the pieces' edges that lie in no other piece
};

/// The border is found edge by edge against each piece, which is exact for convex pieces and much faster than an
/// overlay of polygons. Where two pieces share a stretch of border the first one keeps it; where they lie back to back
/// none does.
[[nodiscard]] PieceOutline outlineOf(std::vector<Polygon> pieces);

}  // namespace tinwright::report
