// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>

#include "shadow.h"

namespace tinwright {

/// Branch and bound over the angles of a motion. `gapOver(span)` is a lower bound of the gap over a span without its
/// slack; `bestSeen` only steers where to look closer, the result is the least of the proven bounds of the leaves.
template <class GapOver>
class LeastGapSearch {
public:
    LeastGapSearch(const Motion& motion, double cap_mm, GapOver gapOver)
        : motion_(motion), gapOver_(gapOver), best_seen_mm_(cap_mm), least_{cap_mm, 0} {}

    LeastGap run() {
        visit(0, motion_.end_rad());
        return least_;
    }

private:
    static constexpr double kCloseEnough_mm = 0.05;  // how far under the true gap the bound may stay
    static constexpr double kSmallest_rad = 1e-4;

    void visit(double from, double to) {
        const MotionSpan span(motion_, from, to);
        const double bound = gapOver_(span) - span.slack_mm() - kRounding_mm;
        if (bound >= least_.gap_mm) return;
        const double mid = span.angles.mid();
        const MotionSpan point(motion_, mid, mid);
        best_seen_mm_ = std::min(best_seen_mm_, gapOver_(point) - point.spread_mm);
        if (bound >= best_seen_mm_ - kCloseEnough_mm || span.angles.half() < kSmallest_rad) {
            least_ = {bound, mid};
            return;
        }
        visit(from, mid);
        visit(mid, to);
    }

    const Motion& motion_;
    GapOver gapOver_;
    double best_seen_mm_;
    LeastGap least_;
};

}  // namespace tinwright
