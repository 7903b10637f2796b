// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <array>
#include <memory>
#include <vector>

#include <tinwright/geometry/interval_set.h>

#include "contact/group_records.h"
#include "exits/rest_shadows.h"

namespace tinwright {

/// What is in the way of the plain exits: bars that lift off and a part that lifts after them, or a beam that rises and
/// a part that is drawn out forward.
struct PlainExit {
    std::vector<IntervalSet> bars;       ///< by family: x where a piece's way is barred
    std::vector<IntervalSet> sure_bars;  ///< the same, of which more of the part takes nothing away
    std::vector<IntervalSet> bodies;     ///< by face: x where bed, leaf or beam bar the part's way
    /// Something is barred somewhere.
    [[nodiscard]] bool any() const {
        const auto isAny = [](const std::vector<IntervalSet>& sets) {
            return std::any_of(sets.begin(), sets.end(), [](const IntervalSet& set) { return !set.empty(); });
        };
        return isAny(bodies) || isAny(bars);
    }
};

/// What each group of the part has in the way of the plain exits, each computed once.
class PlainWays {
public:
    PlainWays(const StrokeGeometry& geometry, GroupRecords& records)
        : geometry_(geometry), records_(records), exits_(geometry.machine()) {}

    const PlainExit& of(std::uint32_t record, Phase phase);

private:
    [[nodiscard]] PlainExit compute(std::uint32_t record, Phase phase);

    const StrokeGeometry& geometry_;
    GroupRecords& records_;
    PlainExits exits_;
    using ByPhase = std::array<std::unique_ptr<PlainExit>, 2>;  // what does not move is the same in both
    std::vector<ByPhase> known_;                                // by record
    std::vector<Vec3> scratch_;
};

}  // namespace tinwright
