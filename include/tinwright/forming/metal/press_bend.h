// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include <tinwright/base/angle.h>
#include <tinwright/brake/machines/brake.h>
#include <tinwright/brake/shop/material.h>

/// What a bend on a press brake comes to in one V: its radius, its force, and the sheet that it needs beside it.
/// Everywhere the brake is a press brake; its `mode` says whether bends are air bends or bottomed.
namespace tinwright {

/// Inside radius that bends get in a V, what inVee() wants to be told. Air bending: 0.16 V (airBendRadius_mm);
/// bottoming: that of the punch's tip. Never under the sharpest tip that the brake has (of punches that there are).
[[nodiscard]] double pressRadius_mm(const PressBrake& press, const Vee& vee);

/// Force on each mm of a bend, in N (so kN on each metre): kAirBendChartFactor Rm t² / V with the upper limit of Rm,
/// times the press's factor when bottoming. Nothing when the strength is not known.
struct PressForce {
    double n_per_mm = 0;
    bool is_least = false;  ///< the tensile strength has no upper limit, so that it may be more
};
[[nodiscard]] std::optional<PressForce> pressForce(const PressBrake& press, const Vee& vee, const Material* material,
                                                   double thickness_mm);

/// Flat sheet that must lie beside a bend, from the end of the bend on, so that it bears on the V's shoulder to the end
/// of the stroke. Up to a right angle the chart's 0.7 V, measured outside to where the outer faces meet; past it the
/// foot on the shoulder moves out as 1 / cos(angle / 2) (geometry: (V / 2) / cos 45° is the chart's 0.7 V).
[[nodiscard]] double pressLeastFlat_mm(const Vee& vee, Angle angle, double inside_radius_mm, double thickness_mm);

}  // namespace tinwright
