// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include <tinwright/base/angle.h>
#include <tinwright/brake/shop/material.h>

/// Smallest inside radii of cold bends as published. Tables disagree; a value never stands without its source, and two
/// are never merged into one.
namespace tinwright {

/// How a bend line lies to the rolling direction of the sheet.
enum class Grain { kUnsaid, kAcross, kAlong };

struct LeastRadius {
    double radius_mm = 0;
    std::string source;
    bool is_analogue = false;  ///< of the nearest alloy that the table has
};

/// DIN 6935 (1975-10) for steel by its lower limit of tensile strength, up to 640 MPa and 20 mm: up to 120°, across the
/// rolling direction; along it, or past 120°, the value of the next thicker band.
[[nodiscard]] std::optional<double> din6935LeastRadius_mm(double tensile_mpa, double thickness_mm, bool along,
                                                          Angle angle);

enum class StructuralSteel { kS235, kS275, kS355 };
/// EN 10025-2, cold flanging of the C grades up to 90°, 1 to 30 mm thick.
[[nodiscard]] std::optional<double> en10025LeastRadius_mm(StructuralSteel steel, double thickness_mm, bool along);

/// Aluminum Association (Aluminum Design Manual 2005), 90° cold bends, by alloy and temper as "5052-H32"; between its
/// thicknesses the next thicker one. In mm.
[[nodiscard]] std::optional<double> aluminiumLeastRadius_mm(std::string_view alloy_temper, double thickness_mm);

/// The table that is nearest to a material; nothing when none has it.
[[nodiscard]] std::optional<LeastRadius> leastRadius(const Material& material, double thickness_mm, Grain grain,
                                                     Angle angle);

/// Kalpakjian and Schmid table 16.3 for soft metal of the family ("steel", "stainless", "aluminium"), in mm: under it
/// even soft metal cracks.
[[nodiscard]] std::optional<LeastRadius> softestLeastRadius(const Material& material, double thickness_mm);

}  // namespace tinwright
