// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <unordered_map>
#include <vector>

#include "bodies/stroke_geometry.h"

namespace tinwright {

/// How close groups of the finished part lie: what is so drawn is meant to be.
class DrawnGaps {
public:
    explicit DrawnGaps(const StrokeGeometry& geometry);

    /// True when two groups lie closer than the wanted clearance.
    bool isClose(std::size_t a, std::size_t b);
    /// How close they lie as far as separating axes tell, to be compared with gaps in a stroke that are found by them
    /// too; kClearanceCap_mm when it is more.
    [[nodiscard]] double gap_mm(std::size_t a, std::size_t b) const;

private:
    double wanted_mm_;
    std::unordered_map<std::uint64_t, bool> close_;
    std::vector<std::vector<Solid>> finished_;  // groups of the finished part in the base's frame
};

}  // namespace tinwright
