// SPDX-License-Identifier: GPL-3.0-or-later
#include "rules/wording.h"

#include <cmath>

namespace tinwright::forming {

std::string roundedUp(double length_mm) { return shortNumber(std::ceil(length_mm * 10 - 1e-6) / 10); }
std::string degrees(Angle angle) { return shortNumber(angle.deg()) + "°"; }

std::string bendNames(const Part& part, const std::vector<BendId>& bends) {
    std::vector<std::string> names;
    for (const BendId bend : bends) names.push_back(part.bend(bend).name);
    return listed(names);
}

std::string bendsFeature(const Part& part, const std::vector<BendId>& bends) {
    return bends.size() == part.bends.size() && bends.size() > 1 ? "all bends" : bendNames(part, bends);
}

Finding startFinding(std::string id, Severity severity, std::string feature, std::vector<BendId> bends) {
    Finding finding;
    finding.id = std::move(id);
    finding.severity = severity;
    finding.feature = std::move(feature);
    finding.bends = std::move(bends);
    return finding;
}

}  // namespace tinwright::forming
