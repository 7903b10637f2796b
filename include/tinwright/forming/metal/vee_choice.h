// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/brake/machines/brake.h>
#include <tinwright/part/model/part.h>

namespace tinwright {

/// The press brake in each of its Vs that suits the thickness (inVee, with the inside radius that bends get there), the
/// one to try first at the front: Vs that give the radius that the part is drawn with, within the spread of the
/// published chart, then those nearest to the usual opening; of equal openings the wider angle. Vs under 5 or over 20
/// thicknesses (Oehler's range) are left out unless there are no others. A press brake that is in a V already is that
/// alone. Precondition: it has dies.
[[nodiscard]] std::vector<Brake> inEachVee(const Part& part, const Brake& brake);

/// The press brake in that V, with the radius that bends get there (pressRadius_mm).
[[nodiscard]] Brake usingVee(const Brake& brake, const Vee& vee);

}  // namespace tinwright
