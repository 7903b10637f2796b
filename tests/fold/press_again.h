// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// A stroke that the engine calls possible on a press brake, made again by the oracle with punches and dies where the
// engine puts them.

#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/fold/engine/fold_engine.h>

#include "oracle_press.h"

namespace tinwright::oracle {

/// What is taken for what it is not, to see whether it matters.
enum class Pretend { kNothing, kNoHorns, kNoHollows };

struct PressAgain {
    const Part& part;
    BrakeInSetup brake;
    const PressModel& stroke;
    const StrokeResult& result;
    std::vector<Forming> formings;
    double step_rad;  ///< of half the bend
    Pretend pretend = Pretend::kNothing;
};

/// The first hit found, told; empty: none.
[[nodiscard]] std::string firstHit(const PressAgain& again);

}  // namespace tinwright::oracle
