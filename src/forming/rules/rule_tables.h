// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>

#include <tinwright/forming/rules/rules.h>

/// The rules by subject, a file each.
namespace tinwright::forming {

[[nodiscard]] std::span<const Rule> metalRules();    ///< what the metal does
[[nodiscard]] std::span<const Rule> pressRules();    ///< the same on press brakes, where leaf brakes have another rule
[[nodiscard]] std::span<const Rule> cuttingRules();  ///< what the cutting process makes well

}  // namespace tinwright::forming
