// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/part/model/part.h>

namespace tinwright {

/// The brake in each set-up in which the part might be folded, the one to try first at the front. A leaf brake has one.
/// A press brake is put in each of its Vs that suits the thickness, with the inside radius that bends get there: Vs
/// that give the radius that the part is drawn with, within the spread of the published chart, then those nearest to
/// the usual opening; of equal openings the wider angle. Vs under 5 or over 20 thicknesses (Oehler's range) are left
/// out unless there are no others. Precondition: a press brake has dies.
[[nodiscard]] std::vector<BrakeInSetup> setupsFor(const Part& part, const Brake& brake);

/// The press brake in that V, with the radius that bends get there (pressRadius_mm).
[[nodiscard]] BrakeInSetup usingVee(const Brake& brake, const Vee& vee);

}  // namespace tinwright
