// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <memory>
#include <utility>
#include <vector>

#include <tinwright/geometry/interval_set.h>

#include "bodies/stroke_geometry.h"

namespace tinwright {

/// Where the panels give sheet to be clamped, or to bear on the die.
class ClampedWidths {
public:
    explicit ClampedWidths(const StrokeGeometry& geometry)
        : geometry_(geometry), known_(geometry.part().bends.size() * 2), swung_(known_.size()) {}

    /// Where along x (bend frame) the held panel gives at least the wanted clamped width behind the nose line; on a
    /// press brake, where both panels reach past the shoulders of the V throughout the stroke.
    const IntervalSet& of(BendId bend, Side hold);
    /// Where what swings reaches far enough onto what swings it; none: it need not.
    const std::optional<IntervalSet>& swung(BendId bend, Side hold);
    /// How deep the panel that swings lies flat before the strip over half of the bend at the least, to a hundredth, at
    /// most so far.
    [[nodiscard]] double swungDepth_mm(BendId bend, Side hold, double most_mm) const;
    /// Whether what swings the sheet does so with a face of it.
    [[nodiscard]] bool swings(BendId bend, Side hold, std::size_t face);
    /// How much further than the sheet what swings it is to be turned, with a face of it.
    [[nodiscard]] Angle lead(BendId bend, Side hold, std::size_t face) const;

private:
    [[nodiscard]] IntervalSet deepEnough(BendId bend, Side hold, Side side, double depth_mm) const;

    const StrokeGeometry& geometry_;
    std::vector<std::unique_ptr<IntervalSet>> known_;  // [bend * 2 + hold]
    std::vector<std::unique_ptr<std::optional<IntervalSet>>> swung_;
    std::map<std::pair<std::size_t, std::size_t>, bool> swings_;  // by that and face
};

}  // namespace tinwright
