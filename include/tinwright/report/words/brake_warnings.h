// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/brake/machines/brake.h>

namespace tinwright {

/// Figures of the brake that nobody has measured, those for hems only where the part has some; never changes a verdict.
[[nodiscard]] std::vector<std::string> brakeWarnings(const Brake& brake, bool has_hems = false);

}  // namespace tinwright
