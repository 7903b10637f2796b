// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/leaf_brake.h>

namespace tinwright {

bool sameSection(const Bar& a, const Bar& b) {
    return a.profile == b.profile && a.end_relief_mm == b.end_relief_mm && a.end_relief_height_mm == b.end_relief_height_mm;
}

double Shop::overbendFor_deg(const std::string& material) const {
    const auto found = overbend_deg.find(material);
    return found == overbend_deg.end() ? default_overbend_deg : found->second;
}

ToleranceBox Shop::tolerancesFor(const Part& part) const {
    return toleranceBox(tolerances, part, cutting ? std::optional(cutting->process) : std::nullopt);
}

}  // namespace tinwright
