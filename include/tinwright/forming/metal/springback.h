// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include <tinwright/base/angle.h>
#include <tinwright/brake/shop/material.h>

/// How far a bend opens when the tool lets go. Radii are inside radii in mm.
namespace tinwright {

/// Radius under load over radius after it, Ri/Rf = 4X³ - 3X + 1 with X = Ri Y / (E T). Gardiner 1957, Kalpakjian and
/// Schmid eq. 16.10; exact for pure bending of an elastic, perfectly plastic strip. Nothing for X over 0.5: the sheet
/// springs back altogether.
[[nodiscard]] std::optional<double> radiusRatio(double loaded_radius_mm, double thickness_mm, double yield_mpa,
                                                double modulus_mpa);

/// Angle after it over angle under load: the neutral arc keeps its length, (2 Ri/T + 1) / (2 Rf/T + 1). Kalpakjian and
/// Schmid.
[[nodiscard]] double angleRatio(double loaded_radius_mm, double free_radius_mm, double thickness_mm);

/// Springback factor kR = (angle after) / (angle under load) of a tool maker's table by r2/s, with r2 the radius after
/// it. Interpolated over the logarithm of r2/s; nothing outside the table (1 to 100) and where it has no value.
[[nodiscard]] std::optional<double> springbackFactor(std::string_view row, double radius_over_thickness);

/// The row of that table for a material of the materials file; empty when it has none.
[[nodiscard]] std::string_view springbackRow(std::string_view material_id);

/// Inside radius of the tool for a wanted one: kR (r2 + s/2) - s/2. Same source.
[[nodiscard]] double toolRadius_mm(double factor, double free_radius_mm, double thickness_mm);

/// What to swing to for a wanted angle, by each of the two ways. Neither is a measurement.
struct SetAngle {
    std::optional<Angle> by_formula;  ///< radiusRatio and angleRatio with the material's published yield limit
    bool formula_is_least = false;    ///< the yield is a lower limit, so that the metal springs back more than this
    std::optional<Angle> by_table;    ///< springbackFactor
};
[[nodiscard]] SetAngle setAngleFor(const Material& material, Angle wanted, double radius_mm, double thickness_mm);

}  // namespace tinwright
