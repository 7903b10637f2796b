// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// A stroke that the engine calls possible, swung by the oracle with bars where the engine puts them.

#include <functional>
#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/fold/engine/fold_engine.h>

#include "oracle_model.h"

namespace tinwright::oracle {

struct SwingAgain {
    const Part& part;
    BrakeInSetup brake;
    const LeafModel& stroke;
    const StrokeResult& result;
    double least_strip_mm;  ///< of the part for which bars were placed
    std::vector<Forming> formings;
    double step_rad;
    std::function<bool(std::size_t, std::size_t)> skip;  ///< pairs of moving and held pieces that are not looked at
};

/// The first hit found, told; empty: none.
[[nodiscard]] std::string firstHit(const SwingAgain& again);

}  // namespace tinwright::oracle
