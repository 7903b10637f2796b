// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "kernel/shadow.h"

namespace tinwright {

/// What is known of two solids of the part, one on the moving side and one on the held side, over a swing.
/// Overlap of up to the contact tolerance is touching.
struct PairVerdict {
    bool clear = true;  ///< proven, for every motion within the spread
    bool hit = false;   ///< witnessed for every such motion
    double at_rad = 0;  ///< of the witness
    double depth_mm = 0;
};

/// Both solids in the frame of the fold's bend, the moving one at rest.
[[nodiscard]] PairVerdict sweepPair(const SeenSolid& moving, const Solid& held, const Motion& motion);

/// Proof that they stay further apart than the margin; false when that is not so, or not proven.
[[nodiscard]] bool staysBeyond(const SeenSolid& moving, const Solid& held, const Motion& motion, double margin_mm);

/// A proven lower bound of their distance over the swing; one over the cap is not told apart from it, one under it is
/// at most some hundredths under what their separating axes tell, or `within_mm`.
[[nodiscard]] GapBound leastPairGap(const SeenSolid& moving, const Solid& held, const Motion& motion, double cap_mm,
                                    double within_mm = 0.05);

/// Distance of two solids that stand still as far as separating axes tell, negative when they overlap; some value over
/// `enough_mm` when it is more than that.
[[nodiscard]] double restGap_mm(const Solid& a, const Solid& b, double enough_mm);

/// True when two solids that stand still are shown to be further apart than the margin (negative: to overlap by no
/// more).
[[nodiscard]] bool liesBeyond(const Solid& a, const Solid& b, double margin_mm);

}  // namespace tinwright
