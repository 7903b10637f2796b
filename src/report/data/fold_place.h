// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <vector>

#include <tinwright/report/data/plan_report.h>

namespace tinwright::report {

/// Where a fold stands in its order.
struct FoldPlace {
    std::size_t number = 1;            ///< from 1
    std::size_t count = 1;             ///< folds of the order
    BendMask formed_before = 0;        ///< bends that are folded before it
    BendMask formed_after = 0;         ///< and with it
    const FoldStep* before = nullptr;  ///< the fold before it on the same brake, if any
};

/// Of each fold of an order; `formed`: bends that were folded before the first. Refers to the folds.
[[nodiscard]] std::vector<FoldPlace> foldPlaces(const std::vector<FoldStep>& folds, BendMask formed);
/// The same over two brakes: tools of the other one, and how the part lay there, tell nothing.
[[nodiscard]] std::vector<FoldPlace> foldPlaces(const SplitPlan& split, BendMask formed);
/// The same of a person's own order, up to and with the step that fails; nothing is told of the fold before where that
/// one failed.
[[nodiscard]] std::vector<FoldPlace> foldPlaces(const std::vector<TriedStep>& steps, std::size_t count,
                                                BendMask formed);

}  // namespace tinwright::report
