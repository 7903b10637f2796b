// SPDX-License-Identifier: GPL-3.0-or-later
#include "metal/rating.h"

#include <algorithm>
#include <array>
#include <string_view>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/forming/metal/bending.h>

#include "metal/strength.h"

namespace tinwright::forming {

namespace {

struct UsualSheet {
    std::string_view id;
    double tensile_mpa;
};
// What brakes are rated for: EN 10130 (DC01) and EN 10025-2 (S235), upper limits.
constexpr std::array<UsualSheet, 4> kUsual{
    {{"mild-steel", 410}, {"dc01", 410}, {"structural-steel", 510}, {"s235jr", 510}}};

bool means(const Material& material, const std::string& id) {
    return material.id == id ||
           std::find(material.aliases.begin(), material.aliases.end(), id) != material.aliases.end();
}

}  // namespace

std::optional<double> ratedTensile_mpa(const Rating& rating, const Material* material) {
    const std::optional<Strength> own = strengthOf(material);
    if (own && means(*material, rating.material)) return own->most_tensile_mpa;
    for (const UsualSheet& usual : kUsual) {
        if (usual.id == rating.material) return usual.tensile_mpa;
    }
    return std::nullopt;
}

std::optional<RatedShare> ratedShare(const BrakeInSetup& brake, const Material* material, double thickness_mm,
                                     double length_mm) {
    const std::optional<Strength> strength = strengthOf(material);
    if (!strength) return std::nullopt;
    std::optional<RatedShare> best;
    for (const Rating& rating : brake->ratings) {
        const std::optional<double> rated_mpa = ratedTensile_mpa(rating, material);
        if (!rated_mpa) continue;
        RatedShare share;
        share.rating = &rating;
        share.rated_nmm_per_mm = wideSheetMoment_nmm(*rated_mpa, 1, rating.thickness_mm);
        share.moment_nmm_per_mm = wideSheetMoment_nmm(strength->most_tensile_mpa, 1, thickness_mm);
        share.per_length = share.moment_nmm_per_mm / share.rated_nmm_per_mm;
        share.altogether = share.per_length * length_mm / rating.length_mm;
        share.is_least = strength->tensile_is_least;
        if (!best || std::max(share.per_length, share.altogether) < std::max(best->per_length, best->altogether))
            best = share;
    }
    return best;
}

}  // namespace tinwright::forming
