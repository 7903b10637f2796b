// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/brake/brake.h>

namespace tinwright {

/// Figures of the brake that nobody has measured; never changes a verdict.
[[nodiscard]] std::vector<std::string> brakeWarnings(const Brake& brake);

}  // namespace tinwright
