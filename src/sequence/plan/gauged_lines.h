// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/plan/plan.h>
#include <tinwright/part/model/part.h>

namespace tinwright {

/// By how much the lines of bends may be off on the sheet, fold by fold of an order: one that was gauged by as much as
/// was told of its stop, so that what is gauged over it is told with all that it rests on; others by what the shop
/// says.
class GaugedLines {
public:
    GaugedLines(const Part& part, const Shop& shop) : lines_mm_(part.bends.size(), shop.tolerances.bend_line_mm) {}

    /// Of bends that are formed already, by bend.
    [[nodiscard]] const std::vector<double>& lines_mm() const { return lines_mm_; }
    void take(const FoldStep& step) {
        if (!step.gauge_stop) return;
        for (const BendId bend : bendsIn(step.stroke.bends)) lines_mm_[bend.index()] = step.gauge_stop->tolerance_mm;
    }

private:
    std::vector<double> lines_mm_;
};

}  // namespace tinwright
