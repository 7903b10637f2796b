// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>
#include <string>

#include <tinwright/brake/brake.h>

namespace tinwright::forming {

/// V/t within which Oehler's formula of the force holds (Lange's handbook).
inline constexpr double kNarrowestVee_t = 5;
inline constexpr double kWidestVee_t = 20;

/// The V that a press brake is used with (inVee): that of the first die that there is, as the fold simulation takes it. None: no die, nothing
/// can be bent.
[[nodiscard]] std::optional<Vee> usedVee(const Brake& brake);

/// The narrowest V of the brake over the opening of the used one, and the widest under it down to kNarrowestVee_t thicknesses, that will do.
using VeeTest = std::function<bool(const Vee& vee)>;
[[nodiscard]] std::optional<Vee> widerVee(const Brake& brake, const Vee& used, const VeeTest& will_do);
[[nodiscard]] std::optional<Vee> narrowerVee(const Brake& brake, const Vee& used, double thickness_mm, const VeeTest& will_do);

/// Tip radius of the roundest punch that there is; none without punches.
[[nodiscard]] std::optional<double> roundestTip_mm(const Brake& brake);

/// "in a V of 12 bends get an inside radius of 1.9 mm by the chart".
[[nodiscard]] std::string radiusWords(const Brake& brake, const Vee& vee);

}  // namespace tinwright::forming
