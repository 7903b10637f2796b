// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "measures/leg.h"

namespace tinwright::forming {

/// Length of a leg measured outside, by the convention of setback_mm.
[[nodiscard]] double outside_mm(const Part& part, const Bend& bend, const Leg& leg);

/// Flat sheet between two parallel bends of one panel that lie beside one another, from the end of one to the end of
/// the other. Each pair has it in one order only.
[[nodiscard]] std::optional<double> flatBetween_mm(const Part& part, BendId from, BendId to);

}  // namespace tinwright::forming
