// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/brake/leaf_brake.h>

namespace tinwright::report {

/// The usual cautions for the kinds of brakes named, in a few lines.
[[nodiscard]] std::string safetyText(const std::vector<ClampKind>& kinds);

}  // namespace tinwright::report
