// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/shop/material.h>

namespace tinwright::forming {

/// How much of a brake's rating a bend asks for. Moments go with upper tensile strength times thickness squared.
struct RatedShare {
    const Rating* rating = nullptr;
    double per_length = 0;  ///< moment of a mm of the bend over that of a mm of the rated sheet
    double altogether = 0;  ///< moment of the whole bend over that of the whole rated sheet
    double rated_nmm_per_mm = 0;
    double moment_nmm_per_mm = 0;
    bool is_least = false;  ///< the part's tensile strength has no upper limit: it may be more
};

/// By the rating that asks least of it; nothing when the strengths are not known.
[[nodiscard]] std::optional<RatedShare> ratedShare(const BrakeInSetup& brake, const Material* material,
                                                   double thickness_mm, double length_mm);

/// Upper limit of the tensile strength of what a rating names: the part's own material, or one of the usual ones.
[[nodiscard]] std::optional<double> ratedTensile_mpa(const Rating& rating, const Material* material);

}  // namespace tinwright::forming
