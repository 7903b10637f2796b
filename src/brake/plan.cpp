// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/plan.h>

namespace tinwright {

const char* toText(Verdict verdict) {
    switch (verdict) {
        case Verdict::kFeasible: return "feasible";
        case Verdict::kInfeasible: return "infeasible";
        case Verdict::kUndecided: break;
    }
    return "undecided";
}

}  // namespace tinwright
