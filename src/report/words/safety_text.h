// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/brake/machines/brake.h>

namespace tinwright::report {

/// The usual cautions for the kinds of brakes named, a few sentences each.
[[nodiscard]] std::vector<std::string> cautions(const std::vector<MachineKind>& kinds);

/// The same as text.
[[nodiscard]] std::string safetyText(const std::vector<MachineKind>& kinds);

}  // namespace tinwright::report
