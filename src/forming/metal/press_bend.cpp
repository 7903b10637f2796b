// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/forming/metal/press_bend.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include <tinwright/brake/machines/brake.h>
#include <tinwright/forming/metal/bending.h>

#include "metal/strength.h"

namespace tinwright {

namespace {

double sharpestTip_mm(const PressBrake& press) {
    double sharpest_mm = std::numeric_limits<double>::infinity();
    for (const Punch& punch : press.punches) {
        if (punch.count > 0) sharpest_mm = std::min(sharpest_mm, punch.tip_radius_mm);
    }
    return sharpest_mm;
}

}  // namespace

double pressRadius_mm(const PressBrake& press, const Vee& vee) {
    const double air_mm = airBendRadius_mm(vee.opening_mm);
    const double tip_mm = sharpestTip_mm(press);
    if (tip_mm == std::numeric_limits<double>::infinity()) return air_mm;  // no punch at all
    return press.mode == PressMode::kBottoming ? tip_mm : std::max(air_mm, tip_mm);
}

std::optional<PressForce> pressForce(const PressBrake& press, const Vee& vee, const Material* material,
                                     double thickness_mm) {
    const std::optional<forming::Strength> strength = forming::strengthOf(material);
    if (!strength) return std::nullopt;
    const double factor = press.mode == PressMode::kBottoming ? press.bottoming_factor : 1;
    const double air_n = bendForce_n(kAirBendChartFactor, strength->most_tensile_mpa, 1, thickness_mm, vee.opening_mm);
    return PressForce{factor * air_n, strength->tensile_is_least};
}

double pressLeastFlat_mm(const Vee& vee, Angle angle, double inside_radius_mm, double thickness_mm) {
    const Angle square = Angle::degrees(90);
    const SinCos half = sinCos(Angle::radians(0.5 * angle.rad()));
    const double grown = angle > square ? std::sqrt(0.5) / half.cos : 1;
    return airBendLeastFlange_mm(vee.opening_mm) * grown - (inside_radius_mm + thickness_mm) * half.sin / half.cos;
}

}  // namespace tinwright
