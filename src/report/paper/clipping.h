// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <utility>
#include <vector>

#include <tinwright/geometry/planar.h>

#include "paper/drawing.h"

namespace tinwright::report {

/// What of a polyline lies in the box, as runs of points.
[[nodiscard]] std::vector<std::vector<Vec2>> clippedRuns(const std::vector<Vec2>& points, bool closed, const Box& box);

/// What of a polygon lies in the box, for filling: edges along the box are not edges of the thing. Empty when nothing
/// does.
[[nodiscard]] std::vector<Vec2> clippedPolygon(const std::vector<Vec2>& ring, const Box& box);

/// Parallel lines at 45° (slope 1 or -1) over a region, `spacing_mm` apart, in step across the whole drawing.
[[nodiscard]] std::vector<std::pair<Vec2, Vec2>> hatchLines(const Region& region, double spacing_mm, double slope,
                                                            const Box& box);

}  // namespace tinwright::report
