// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include <tinwright/brake/brake.h>

namespace tinwright::forming {

/// The V that a press brake is used with (inVee): that of the first die that there is, as the fold simulation takes it. None: no die, nothing can be bent.
[[nodiscard]] std::optional<Vee> usedVee(const Brake& brake);

/// Tip radius of the roundest punch that there is; none without punches.
[[nodiscard]] std::optional<double> roundestTip_mm(const Brake& brake);

}  // namespace tinwright::forming
