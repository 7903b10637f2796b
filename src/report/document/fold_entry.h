// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/brake/plan/plan_time.h>
#include <tinwright/report/data/bar_datum.h>
#include <tinwright/report/data/fold_context.h>

#include "data/fold_place.h"
#include "sentences/fold_text.h"

namespace tinwright::report {

/// One fold of an order, with all that is told of it. Refers to part, brake and plan.
struct FoldEntry {
    FoldContext on;
    const FoldStep& step;
    FoldPlace place;
    std::string name;               ///< "Fold 1 of 3: left"
    std::string title;              ///< the same, and how many bends it has when they are several
    std::optional<BarDatum> datum;  ///< where the rule lies that bars are put by
    bool tools_stay = false;        ///< the same pieces at the same places as for the fold before
    FoldWords words;
    long long time_ms = 0;
    std::string time;                    ///< "55 s: fold 20 s, gauge 15 s, tools 20 s"
    std::vector<Finding> findings = {};  ///< what the metal does, where somebody looked
    bool is_carried_to = false;          ///< of a plan over two brakes: the part is brought to this brake first
};

/// `actions`: of the fold in its order.
[[nodiscard]] FoldEntry foldEntry(const FoldContext& on, const FoldStep& step, const FoldPlace& place,
                                  const FoldActions& actions);

}  // namespace tinwright::report
