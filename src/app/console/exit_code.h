// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/brake/plan/plan.h>

namespace tinwright::app {

/// What the program says to the shell that started it.
enum ExitCode : int {
    kFeasibleExit = 0,
    kInfeasibleExit = 1,
    kBadInputExit = 2,
    kUndecidedExit = 3,
    kWithTroubleExit = 4
};

[[nodiscard]] constexpr ExitCode exitCode(Verdict verdict) {
    switch (verdict) {
        case Verdict::kFeasible: return kFeasibleExit;
        case Verdict::kWithTrouble: return kWithTroubleExit;
        case Verdict::kInfeasible: return kInfeasibleExit;
        case Verdict::kUndecided: break;
    }
    return kUndecidedExit;
}

}  // namespace tinwright::app
