// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>

#include <tinwright/brake/machines/shop.h>
#include <tinwright/geometry/interval_set.h>

namespace tinwright {

/// When pieces in a row cover a stretch of bend: the shop's limits for gaps between them and for what sticks out at
/// the ends. Lengths are in micrometres.
struct CoverRules {
    explicit CoverRules(const Limits& limits)
        : gap_um(micronFloor(limits.bar_gap_mm)), end_um(micronFloor(limits.uncovered_end_mm)) {}
    Micron gap_um;
    Micron end_um;

    /// What so many pieces must come to together.
    [[nodiscard]] Micron leastSum_um(int pieces, Micron bend_um) const {
        return bend_um - 2 * end_um - (pieces - 1) * gap_um;
    }
    /// How far in all the pieces must be spread for the ends to be short enough.
    [[nodiscard]] Micron missing_um(Micron bend_um, Micron sum_um) const {
        return std::max<Micron>(0, bend_um - 2 * end_um - sum_um);
    }
};

}  // namespace tinwright
