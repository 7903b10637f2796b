// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Parts that come out of the tolerance box: really other parts (thickness, angles, strips, lines, outlines), made
// without the linear terms by which src/fold bounds them.

#include <tinwright/brake/shop/tolerances.h>
#include <tinwright/part/model/part.h>

#include "random_states.h"

namespace tinwright::deviating {

/// A box with no more than these.
struct Most {
    double thickness_share = 0.1;
    double cutting_mm = 0.6;
    double bend_line_mm = 0.5;
    double angle_deg = 2;
};
[[nodiscard]] ToleranceBox randomBox(const Part& part, const Most& most, random_states::Dice& dice);

/// One bend about to be folded in a part that deviates.
struct Sample {
    Part part;
    double thickness_more_mm = 0;
    double line_off_mm = 0;        ///< of the bend in hand: its held side lies further back by so much
    double overbend_more_deg = 0;  ///< the leaf swings so much further
};

/// Deviations anywhere in the box, or (`extreme`) at its corners. Bends of `formed` are as they came out; that of
/// `bend` has its angle still as drawn, so that the leaf's swing deviates by `overbend_more_deg` alone, unless `after`
/// tells that it is formed.
[[nodiscard]] Sample sampleOf(const Part& part, const ToleranceBox& box, BendId bend, Side hold, bool after,
                              bool extreme, random_states::Dice& dice);

}  // namespace tinwright::deviating
