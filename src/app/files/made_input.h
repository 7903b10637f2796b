// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "files/inputs.h"

namespace tinwright::app {

/// Makes the part of `inputs`, as drawn, what it is after `made`: those bends are formed, and the drawn part is kept in
/// `inputs.made`. Needs the brakes, whose radius sizes are read with. Issues: those of asMade(), told of the option.
[[nodiscard]] Issues takeMade(std::vector<MadeBend> made, Inputs& inputs);

}  // namespace tinwright::app
