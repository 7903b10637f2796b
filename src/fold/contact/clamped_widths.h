// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <vector>

#include <tinwright/geometry/interval_set.h>

#include "bodies/stroke_geometry.h"

namespace tinwright {

/// Where the panels give sheet to be clamped, or to bear on the die.
class ClampedWidths {
public:
    explicit ClampedWidths(const StrokeGeometry& geometry)
        : geometry_(geometry), known_(geometry.part().bends.size() * 2) {}

    /// Where along x (bend frame) the held panel gives at least the wanted clamped width behind the nose line; on a
    /// press brake, where both panels reach past the shoulders of the V throughout the stroke.
    const IntervalSet& of(BendId bend, Side hold);

private:
    [[nodiscard]] IntervalSet deepEnough(BendId bend, Side hold, Side side, double depth_mm) const;

    const StrokeGeometry& geometry_;
    std::vector<std::unique_ptr<IntervalSet>> known_;  // [bend * 2 + hold]
};

}  // namespace tinwright
