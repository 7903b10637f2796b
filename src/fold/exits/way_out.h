// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/brake/plan/plan.h>

#include "exits/rest_shadows.h"
#include "setup/placed.h"

namespace tinwright {

/// A question about getting out.
struct WayOutRequest {
    RestShadows* part = nullptr;
    bool straight_only = false;  ///< leave the planar search out
    BarString bars;
    Interval machine;  ///< the machine's length in fold x
    std::size_t face = 0;
};

/// How everything comes out, or why it does not.
struct WayOut {
    bool found = false;
    bool plain = true;  ///< pieces and part simply lift away, or the part draws out forward under raised pieces
    double lift_mm = 0;
    std::vector<int> order;  ///< pieces in the order in which they leave; those not listed stay
    std::vector<ExitMove> moves;
};

/// Straight exits (up, back, back and up, along and up, forward), and for the part a planar search with tilt when none
/// of them goes. Every way found is proven free.
[[nodiscard]] WayOut findWayOut(const Machine& machine, const WayOutRequest& request);
/// The same for part and bars as they are placed.
[[nodiscard]] WayOut findWayOut(const Machine& machine, RestShadows& part, const Placed& placed, bool straight_only);
/// Whether the moves that are told serve this part too, each as much longer or shorter as it takes.
[[nodiscard]] bool wayServes(const Machine& machine, RestShadows& part, const Placed& placed, const WayOut& told);

}  // namespace tinwright
