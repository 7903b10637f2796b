// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/machines/brake.h>

#include <algorithm>
#include <limits>
#include <tuple>

namespace tinwright {

bool sameSection(const Bar& a, const Bar& b) {
    return a.row == b.row && a.profile == b.profile && a.horn == b.horn && a.jaw == b.jaw &&
           a.end_relief_mm == b.end_relief_mm && a.end_relief_height_mm == b.end_relief_height_mm;
}

MachineKind kindOf(const Brake& brake) {
    if (brake.isPress()) return MachineKind::kPressBrake;
    return brake.clamp == ClampKind::kLooseBars ? MachineKind::kLooseBarFolder : MachineKind::kBeamFolder;
}

std::vector<Vee> veesOf(const Brake& brake) {
    std::vector<Vee> vees;
    for (const Bar& bar : brake.bars) {
        if (bar.vee) vees.push_back(*bar.vee);
    }
    const auto key = [](const Vee& vee) { return std::tuple(vee.opening_mm, vee.angle.rad(), vee.shoulder_radius_mm); };
    std::sort(vees.begin(), vees.end(), [&](const Vee& a, const Vee& b) { return key(a) < key(b); });
    vees.erase(std::unique(vees.begin(), vees.end()), vees.end());
    return vees;
}

Brake inVee(const Brake& brake, const Vee& vee, double radius_mm) {
    double sharpest_mm = std::numeric_limits<double>::infinity();
    for (const Bar& bar : brake.bars) {
        if (bar.row == ToolRow::kUpper) sharpest_mm = std::min(sharpest_mm, bar.tip_radius_mm);
    }
    Brake used = brake;
    used.nose_radius_mm = std::max(radius_mm, sharpest_mm);
    used.press->vee = vee;
    for (Bar& bar : used.bars) {
        const bool usable = bar.row == ToolRow::kDie ? *bar.vee == vee : bar.tip_radius_mm <= used.nose_radius_mm;
        if (!usable) bar.count = 0;
    }
    return used;
}

double Overbend::of_deg(const std::string& material) const {
    const auto found = by_material_deg.find(material);
    return found == by_material_deg.end() ? default_deg : found->second;
}

ToleranceBox Shop::tolerancesFor(const Part& part) const {
    return toleranceBox(tolerances, part, cutting ? std::optional(cutting->process) : std::nullopt);
}

}  // namespace tinwright
