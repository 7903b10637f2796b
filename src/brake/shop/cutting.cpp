// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/shop/cutting.h>

#include <algorithm>
#include <cmath>

namespace tinwright {

namespace {

// Sheets of one nominal thickness differ by about this much.
constexpr double kSameThickness = 0.1;

}  // namespace

const char* toText(CutProcess process) {
    switch (process) {
        case CutProcess::kPlasma: return "plasma";
        case CutProcess::kLaser: return "laser";
        case CutProcess::kShearAndDrill: return "shear-and-drill";
    }
    return "";
}

double LeastSize::forThickness_mm(double thickness_mm) const {
    return std::max(at_least_mm, times_thickness * thickness_mm);
}

std::optional<double> Cutting::kerf_mm(double thickness_mm) const {
    const auto isNear = [&](const Kerf& kerf) {
        return std::abs(kerf.thickness_mm - thickness_mm) <= kSameThickness * kerf.thickness_mm;
    };
    const auto above =
        std::find_if(kerfs.begin(), kerfs.end(), [&](const Kerf& kerf) { return kerf.thickness_mm >= thickness_mm; });
    if (above != kerfs.end() && above != kerfs.begin()) {
        const Kerf& low = *std::prev(above);
        const double share = (thickness_mm - low.thickness_mm) / (above->thickness_mm - low.thickness_mm);
        return low.kerf_mm + share * (above->kerf_mm - low.kerf_mm);
    }
    if (kerfs.empty()) return std::nullopt;
    const Kerf& end = above == kerfs.end() ? kerfs.back() : kerfs.front();
    return isNear(end) ? std::optional(end.kerf_mm) : std::nullopt;
}

Cutting cuttingOf(CutProcess process) {
    Cutting cutting;
    cutting.process = process;
    switch (process) {
        case CutProcess::kPlasma:
            cutting.smallest_hole = {1.5, 3.0};
            cutting.inside_radius_mm = 1.0;
            cutting.least_web = {1.5, 3.0};
            break;
        case CutProcess::kLaser:
            cutting.smallest_hole = {1.0, 0.5};
            cutting.inside_radius_mm = 0.3;
            cutting.least_web = {1.0, 0.5};
            cutting.dross = Dross::kNone;
            break;
        case CutProcess::kShearAndDrill:
            cutting.least_web = {1.0, 1.0};
            cutting.dross = Dross::kNone;
            break;
    }
    return cutting;
}

}  // namespace tinwright
