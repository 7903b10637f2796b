// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/forming/metal/least_radius.h>

#include <algorithm>

#include <tinwright/base/units.h>

#include "metal/least_radius_tables.h"

namespace tinwright {

namespace {

using namespace forming;

constexpr double kDinSteepest_deg = 120;
constexpr double kEnSteepest_deg = 90;
constexpr double kEnThinnest_mm = 1;

/// The first band that reaches up to a thickness; its size when none does.
template <class Bands>
std::size_t bandOf(const Bands& bands, double thickness_mm) {
    return static_cast<std::size_t>(std::lower_bound(bands.begin(), bands.end(), thickness_mm) - bands.begin());
}

std::optional<StructuralSteel> structuralSteel(std::string_view id) {
    if (id == "s235jr") return StructuralSteel::kS235;
    if (id == "s275jr") return StructuralSteel::kS275;
    if (id == "s355jr") return StructuralSteel::kS355;
    return std::nullopt;
}

std::optional<LeastRadius> steelRadius(const Material& material, double thickness_mm, bool along, Angle angle) {
    const auto steel = structuralSteel(material.id);
    if (steel && angle.deg() <= kEnSteepest_deg) {
        const auto radius = en10025LeastRadius_mm(*steel, thickness_mm, along);
        if (radius) return LeastRadius{*radius, "EN 10025-2, cold flanging", false};
    }
    if (!material.tensile_mpa.least) return std::nullopt;
    const auto radius = din6935LeastRadius_mm(*material.tensile_mpa.least, thickness_mm, along, angle);
    if (!radius) return std::nullopt;
    return LeastRadius{*radius, "DIN 6935 (1975-10)", false};
}

std::optional<LeastRadius> aluminiumRadius(const Material& material, double thickness_mm) {
    for (const AluminiumName& name : kAluminiumNames) {
        if (name.material != material.id) continue;
        const auto radius = aluminiumLeastRadius_mm(name.alloy_temper, thickness_mm);
        if (!radius) return std::nullopt;
        return LeastRadius{*radius,
                           "Aluminum Association, Aluminum Design Manual 2005, " + std::string(name.alloy_temper),
                           name.is_analogue};
    }
    return std::nullopt;
}

}  // namespace

std::optional<double> din6935LeastRadius_mm(double tensile_mpa, double thickness_mm, bool along, Angle angle) {
    const std::size_t band = bandOf(kDinThickness_mm, thickness_mm) + (along || angle.deg() > kDinSteepest_deg ? 1 : 0);
    if (band >= kDinBands) return std::nullopt;
    for (const DinRow& row : kDinRows) {
        if (tensile_mpa <= row.to_tensile_mpa) return row.radius_mm[band];
    }
    return std::nullopt;
}

std::optional<double> en10025LeastRadius_mm(StructuralSteel steel, double thickness_mm, bool along) {
    const std::size_t band = bandOf(kEnThickness_mm, thickness_mm);
    if (thickness_mm <= kEnThinnest_mm || band >= kEnBands) return std::nullopt;
    return kEnRows[2 * static_cast<std::size_t>(steel) + (along ? 1 : 0)][band];
}

std::optional<double> aluminiumLeastRadius_mm(std::string_view alloy_temper, double thickness_mm) {
    const std::size_t column = bandOf(kAluminiumThickness_in, thickness_mm / kMmPerInch);
    if (column >= kAluminiumColumns) return std::nullopt;
    for (const AluminiumRow& row : kAluminiumRows) {
        if (row.alloy_temper != alloy_temper) continue;
        if (row.thicknesses[column] < 0) return std::nullopt;
        return row.thicknesses[column] * thickness_mm;
    }
    return std::nullopt;
}

std::optional<LeastRadius> leastRadius(const Material& material, double thickness_mm, Grain grain, Angle angle) {
    if (material.family == "steel") return steelRadius(material, thickness_mm, grain == Grain::kAlong, angle);
    if (material.family == "aluminium" && angle.deg() <= kEnSteepest_deg)
        return aluminiumRadius(material, thickness_mm);
    return std::nullopt;
}

std::optional<LeastRadius> softestLeastRadius(const Material& material, double thickness_mm) {
    const char* const kSource = "Kalpakjian and Schmid table 16.3, soft metal";
    if (material.family == "steel" || material.family == "stainless")
        return LeastRadius{0.5 * thickness_mm, kSource, false};
    if (material.family == "aluminium") return LeastRadius{0, kSource, false};
    return std::nullopt;
}

}  // namespace tinwright
