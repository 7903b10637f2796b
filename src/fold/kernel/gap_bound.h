// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>

#include "kernel/shadow.h"

namespace tinwright {

inline constexpr double kCloseEnough_mm = 0.05;

/// Branch and bound over the angles of a motion. `gap_over(span)` is a lower bound of the gap over a span; `bestSeen`
/// only steers where to look closer, the result is the least of the proven bounds of the leaves.
template <class GapOver>
class GapBoundSearch {
public:
    /// `within_mm`: how far under the true gap the bound may stay.
    GapBoundSearch(const Motion& motion, double cap_mm, GapOver gap_over, double within_mm = kCloseEnough_mm)
        : motion_(motion), gap_over_(gap_over), best_seen_mm_(cap_mm), least_{cap_mm, 0}, within_mm_(within_mm) {}

    GapBound run() {
        visit(MotionSpan(motion_));
        return least_;
    }

private:
    static constexpr double kSmallest_rad = 1e-4;

    void visit(const MotionSpan& span) {
        const double bound = gap_over_(span) - kRounding_mm;
        if (bound >= least_.gap_mm) return;
        best_seen_mm_ = std::min(best_seen_mm_, gap_over_(span.atMiddle()));
        if (bound >= best_seen_mm_ - within_mm_ || span.half_rad() < kSmallest_rad) {
            least_ = {bound, span.mid().angle_rad};
            return;
        }
        visit(span.firstHalf());
        visit(span.secondHalf());
    }

    const Motion& motion_;
    GapOver gap_over_;
    double best_seen_mm_;
    GapBound least_;
    double within_mm_;
};

}  // namespace tinwright
