// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <Eigen/Core>

namespace tinwright {

using Vec2 = Eigen::Vector2d;
using Vec3 = Eigen::Vector3d;

/// A simple polygon, counter-clockwise, first point not repeated. Lengths in mm.
using Polygon = std::vector<Vec2>;

/// A connected planar region: a counter-clockwise outline less its holes (each counter-clockwise too).
struct Region {
    Polygon outline;
    std::vector<Polygon> holes;
};

/// Signed area in mm², positive when counter-clockwise.
[[nodiscard]] double signedArea_mm2(const Polygon& polygon);

/// Area of a region in mm², holes taken off.
[[nodiscard]] double area_mm2(const Region& region);

/// Splits a region into convex counter-clockwise polygons that cover it without overlap: constrained
/// Delaunay triangles (GEOS), merged greedily over shared edges while the union stays convex.
/// The region must be simple; an invalid one gives an empty list.
[[nodiscard]] std::vector<Polygon> convexPieces(const Region& region);

/// Region ∩ band and other overlays go through GEOS: `a` less `b`, as regions. Empty when nothing is left.
[[nodiscard]] std::vector<Region> difference(const Region& a, const std::vector<Polygon>& b);

/// What of `a` is outside of `b`, be it in a hole of it; all of `a` when `b` is no valid region.
[[nodiscard]] std::vector<Region> outside(const Region& a, const Region& b);

/// The part of `a` inside the convex polygon `window`, as regions.
[[nodiscard]] std::vector<Region> intersection(const Region& a, const Polygon& window);

/// The union of all, snapped to a grid of 1e-7 mm so that edges which should be shared are. Touching at a point
/// does not join. One region per connected piece.
[[nodiscard]] std::vector<Region> unite(const std::vector<Region>& regions);

/// The region grown (shrunk when negative) by a distance, square corners kept square (mitred, to a spike of five times
/// the distance at most). Empty when nothing is left; several regions when it falls apart.
[[nodiscard]] std::vector<Region> grown(const Region& region, double by_mm);

/// Distance between two closed outlines as lines; 0 when they touch or cross.
[[nodiscard]] double distance_mm(const Polygon& a, const Polygon& b);

/// True when the outline and holes are simple, holes lie inside and do not cross.
/// When false, `why` (if given) tells the reason with the place, in GEOS's words.
[[nodiscard]] bool isValid(const Region& region, std::string* why = nullptr);

}  // namespace tinwright
