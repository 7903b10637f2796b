// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include <tinwright/brake/machines/brake_in_setup.h>

namespace tinwright {

/// What a plan on a brake of this kind takes for granted, and what was tried; told with every result.
[[nodiscard]] std::string modelOf(const Brake& brake);

/// What of the set-up gives bends their inside radius; begins a sentence.
[[nodiscard]] std::string giverOfRadius(const BrakeInSetup& brake);

}  // namespace tinwright
