// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/brake.h>

#include <algorithm>
#include <limits>

namespace tinwright {

bool sameSection(const Bar& a, const Bar& b) {
    return a.row == b.row && a.profile == b.profile && a.horn == b.horn && a.end_relief_mm == b.end_relief_mm &&
           a.end_relief_height_mm == b.end_relief_height_mm;
}

std::vector<double> veeOpenings_mm(const Brake& brake) {
    std::vector<double> openings_mm;
    for (const Bar& bar : brake.bars) {
        if (bar.vee) openings_mm.push_back(bar.vee->opening_mm);
    }
    std::sort(openings_mm.begin(), openings_mm.end());
    openings_mm.erase(std::unique(openings_mm.begin(), openings_mm.end()), openings_mm.end());
    return openings_mm;
}

Brake inVee(const Brake& brake, double opening_mm, double radius_mm) {
    double sharpest_mm = std::numeric_limits<double>::infinity();
    for (const Bar& bar : brake.bars) {
        if (bar.row == ToolRow::kUpper) sharpest_mm = std::min(sharpest_mm, bar.tip_radius_mm);
    }
    Brake used = brake;
    used.nose_radius_mm = std::max(radius_mm, sharpest_mm);
    for (Bar& bar : used.bars) {
        const bool usable = bar.row == ToolRow::kDie ? bar.vee->opening_mm == opening_mm : bar.tip_radius_mm <= used.nose_radius_mm;
        if (!usable) bar.count = 0;
    }
    return used;
}

double Shop::overbendFor_deg(const std::string& material) const {
    const auto found = overbend_deg.find(material);
    return found == overbend_deg.end() ? default_overbend_deg : found->second;
}

ToleranceBox Shop::tolerancesFor(const Part& part) const {
    return toleranceBox(tolerances, part, cutting ? std::optional(cutting->process) : std::nullopt);
}

}  // namespace tinwright
