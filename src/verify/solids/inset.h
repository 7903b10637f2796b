// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/geometry/planar.h>

namespace tinwright::replay {

/// How deep two bodies may overlap and still only touch (the stated contact tolerance).
inline constexpr double kTouch_mm = 0.05;
/// Bodies are made smaller by a little more than that, so that a contact of exactly the tolerance, or a rounding,
/// is never reported.
inline constexpr double kShrink_mm = kTouch_mm + 1e-4;

/// The points of a region that lie at least `by_mm` inside its edge, as convex pieces. A body that meets what is
/// left goes deeper than `by_mm`; hence shrinking one body of a pair is the test for a contact that counts.
/// The whole region is shrunk before it is split, since shrunk pieces would have slots between them. At inward
/// corners up to 1.4 times `by_mm` is taken off. Empty when nothing is left.
[[nodiscard]] std::vector<Polygon> shrunkPieces(const Region& region, double by_mm);

/// A convex polygon and what lies within about `by_mm` of it (never farther), as a convex polygon.
[[nodiscard]] Polygon grown(const Polygon& convex, double by_mm);

/// Convex hull, counter-clockwise.
[[nodiscard]] Polygon hull(std::vector<Vec2> points);

}  // namespace tinwright::replay
