// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <vector>

#include <tinwright/brake/plan/body_ref.h>
#include <tinwright/brake/shop/tolerances.h>

namespace tinwright {

/// Whether a fold still goes, with the bars where they stand and the ways as they are told, whichever part within the
/// tolerances comes out. Shown by a bound: what is not shown may go all the same.
struct Holding {
    /// What is not shown.
    enum class Open {
        kNothing,
        kStroke,  ///< that nothing meets
        kWayIn,
        kWayOut,
        kLine,  ///< bends of one stroke whose lines agree only as far as the folds between them are true
    };
    ToleranceBox over;
    /// False: not worked out (press brakes and parts with hems are not); then it does not hold, and nothing else is
    /// told.
    bool looked_at = true;
    bool holds = false;
    Open open = Open::kNothing;
    double lacks_mm = 0;             ///< by how much it fails; 0: not known
    std::array<BodyRef, 2> between;  ///< what meets: of the part, and what it meets; unknown: not known
    /// Members drawn nearer to each other than the tolerances: in some parts they touch, whatever the order of folds.
    std::vector<std::array<BodyRef, 2>> may_touch;
};

/// "stroke", "way-in", "way-out", "line"; empty for kNothing.
[[nodiscard]] const char* toText(Holding::Open open);

}  // namespace tinwright
