// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include <tinwright/brake/shop/material.h>

namespace tinwright::forming {

/// The numbers of a material that the checks compute with, and how each was chosen from its published limits.
struct Strength {
    double yield_mpa = 0;           ///< the lower limit, else the upper one
    double flow_mpa = 0;            ///< of the bent sheet: mean of yield and mean tensile strength, common practice
    double most_tensile_mpa = 0;    ///< the upper limit, else the lower one
    bool tensile_is_least = false;  ///< there was no upper limit, so that forces may be larger
    double modulus_mpa = 0;         ///< 0: unknown

    [[nodiscard]] double hardening() const { return flow_mpa / yield_mpa; }
};

/// Nothing when the material is unknown or has no yield or tensile strength.
[[nodiscard]] std::optional<Strength> strengthOf(const Material* material);

}  // namespace tinwright::forming
