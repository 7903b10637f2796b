// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>
#include <string>

#include <tinwright/brake/machines/brake_in_setup.h>

namespace tinwright::forming {

/// V/t within which Oehler's formula of the force holds (Lange's handbook).
inline constexpr double kNarrowestVee_t = 5;
inline constexpr double kWidestVee_t = 20;

/// Openings that the air-bend chart has for a thickness, over the usual one: 0.9 to 2.1; told a little under it.
inline constexpr double kLeastOfUsual = 0.8;
inline constexpr double kMostOfUsual = 2.1;

/// The narrowest V of the brake over the opening of the used one, up to kMostOfUsual, that will do; and the widest
/// under it, down to kNarrowestVee_t thicknesses.
using VeeTest = std::function<bool(const Vee& vee)>;
[[nodiscard]] std::optional<Vee> widerVee(const Brake& brake, const Vee& used, double thickness_mm,
                                          const VeeTest& will_do);
[[nodiscard]] std::optional<Vee> narrowerVee(const Brake& brake, const Vee& used, double thickness_mm,
                                             const VeeTest& will_do);

/// Tip radius of the roundest punch that is of use; none without punches.
[[nodiscard]] std::optional<double> roundestTip_mm(const BrakeInSetup& brake);

/// Force that a punch or die may take, in kN on each metre of it; 0: not said.
[[nodiscard]] double most_kn_per_m(const Brake& brake, ToolId tool);

/// "in a V of 12 bends get an inside radius of 1.9 mm by the chart".
[[nodiscard]] std::string radiusWords(const BrakeInSetup& brake, const Vee& vee);

}  // namespace tinwright::forming
