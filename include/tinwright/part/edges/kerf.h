// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/base/result.h>
#include <tinwright/geometry/planar.h>

namespace tinwright {

/// The path of the middle of a cut.
struct KerfPath {
    Region path;
    std::vector<std::string> notes;  ///< what the kerf leaves uncut, with its place
};

/// Half a kerf outwards for the outline and inwards for holes, so that the finished edge is the one drawn (common
/// practice; the arithmetic is plain). Corners of the path are mitred: the torch turns outside the part. Circles stay
/// circles. What comes out is checked: simple, and as many holes as before. Gaps of the outline and necks of holes that
/// are narrower than the kerf are told as notes, since no cut fits into them. Issues: "kerf.hole" (a hole vanishes),
/// "kerf.crossing" (paths cross: cuts nearer to one another than the kerf).
[[nodiscard]] Result<KerfPath> kerfPath(const Region& blank, double kerf_mm);

/// Places of an outline's gaps and notches that a cut of this width closes: a point in each, left to right.
[[nodiscard]] std::vector<Vec2> gapsNarrowerThan(const Polygon& outline, double kerf_mm);

/// Places of a hole that a cut of this width does not reach from inside, slots that open into it among them: a point in
/// each, left to right.
[[nodiscard]] std::vector<Vec2> necksNarrowerThan(const Polygon& hole, double kerf_mm);

}  // namespace tinwright
