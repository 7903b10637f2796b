// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string_view>

namespace tinwright {

/// Gauge numbers mean different thicknesses by system, so a gauge never stands alone.
enum class GaugeSystem {
    kSteelMsg,     ///< "steel-msg": Manufacturers' Standard Gauge, plain steel sheet (weight / 41.82 lb/ft² per inch)
    kGalvanized,   ///< "galvanized": galvanized steel sheet, zinc included
    kStainless,    ///< "stainless"
    kAluminiumBs,  ///< "aluminium-bs": Brown & Sharpe, aluminium, copper, brass
    kUkSwg,        ///< "uk-swg": Imperial Standard Wire Gauge
};

/// The word a recipe uses, and back.
[[nodiscard]] std::string_view toText(GaugeSystem system);
[[nodiscard]] std::optional<GaugeSystem> gaugeSystemFrom(std::string_view word);

/// Nominal thickness in mm from the published charts (gauges 7 to 30); nothing when the system has no such gauge.
[[nodiscard]] std::optional<double> gaugeThickness_mm(GaugeSystem system, int gauge);

}  // namespace tinwright
