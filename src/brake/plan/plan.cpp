// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/plan/plan.h>

#include <cmath>

#include <fmt/format.h>

namespace tinwright {

const char* toText(Verdict verdict) {
    switch (verdict) {
        case Verdict::kFeasible: return "feasible";
        case Verdict::kInfeasible: return "infeasible";
        case Verdict::kUndecided: break;
    }
    return "undecided";
}

std::string toText(const Holding& holding) {
    if (holding.open == "line") return "rests on lines that agree only as far as the folds between them are true";
    if (holding.open == "way-in") return "is not shown to let part and bars in as told";
    if (holding.open == "way-out") return "is not shown to let part and bars out as told";
    const std::string between =
        holding.between[0].empty() ? "" : fmt::format(" between {} and {}", holding.between[0], holding.between[1]);
    if (holding.lacks_mm <= 0) return "lacks room" + between;
    return fmt::format("lacks {:.1f} mm{}", std::ceil(holding.lacks_mm * 10 - 1e-6) / 10, between);
}

}  // namespace tinwright
