// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include <tinwright/brake/machines/brake.h>

namespace tinwright {

/// What a plan on a brake of this kind takes for granted, and what was tried; told with every result.
[[nodiscard]] std::string modelOf(const Brake& brake);

}  // namespace tinwright
