// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "files/inputs.h"
#include "options/choices.h"

namespace tinwright::app {

/// Lines of bends still flat that would put a size right again, each planned with it moved: on the brakes asked about,
/// one after the other, until an order works.
[[nodiscard]] std::vector<TriedLine> plannedLines(const EffortChoice& effort, const Inputs& inputs);

/// The same, with the order that was asked about tried again.
[[nodiscard]] std::vector<TriedLine> triedLines(const Inputs& inputs);

}  // namespace tinwright::app
