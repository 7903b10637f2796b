// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/geometry/planar.h>

/// What a straight line has of a planar region, as intervals along the line.
namespace tinwright::forming {

struct Stretch {
    double from_mm = 0;
    double to_mm = 0;
    [[nodiscard]] double length_mm() const { return to_mm - from_mm; }
};
using Stretches = std::vector<Stretch>;  ///< ascending, apart from one another

/// All points p with normal · p = offset; `along` is the normal turned back by a right angle.
struct CutLine {
    Vec2 normal = Vec2::UnitY();
    double offset_mm = 0;

    [[nodiscard]] Vec2 along() const { return {normal.y(), -normal.x()}; }
    [[nodiscard]] Vec2 at(double along_mm) const { return offset_mm * normal + along_mm * along(); }
};

/// Inside a simple polygon. A corner on the line counts as on its lower side, so that the intervals are always whole.
[[nodiscard]] Stretches chords(const Polygon& polygon, const CutLine& line);
/// Inside outline and outside holes.
[[nodiscard]] Stretches chords(const Region& region, const CutLine& line);

[[nodiscard]] Stretches without(const Stretches& from, const Stretches& taken);
[[nodiscard]] double total_mm(const Stretches& stretches);

}  // namespace tinwright::forming
