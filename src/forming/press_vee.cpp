// SPDX-License-Identifier: GPL-3.0-or-later
#include "press_vee.h"

#include <algorithm>

namespace tinwright::forming {

std::optional<Vee> usedVee(const Brake& brake) {
    for (const Bar& bar : brake.bars) {
        if (bar.count > 0 && bar.row == ToolRow::kDie) return bar.vee;
    }
    return std::nullopt;
}

std::optional<double> roundestTip_mm(const Brake& brake) {
    std::optional<double> roundest_mm;
    for (const Bar& bar : brake.bars) {
        if (bar.count > 0 && bar.row == ToolRow::kUpper) roundest_mm = std::max(roundest_mm.value_or(0), bar.tip_radius_mm);
    }
    return roundest_mm;
}

}  // namespace tinwright::forming
