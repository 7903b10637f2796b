// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include <tinwright/part/model/part.h>

/// Every blank says which rule it used.
namespace tinwright {

/// "k-factor 0.44", "DIN 6935, factor 0.65", "FAA handbook", "measured by the shop, k 0.41 (3 strips of dc01, ...)".
[[nodiscard]] std::string allowanceRuleText(const Bend& bend);

/// The rules of all bends, each once: "k-factor 0.44", or "k-factor 0.44 (left, right); DIN 6935, factor 0.65 (front)".
/// Empty for a part without bends.
[[nodiscard]] std::string allowanceText(const Part& part);

/// The word that recipes and plan JSON use: "k-factor", "din-6935", "handbook", "measured".
[[nodiscard]] const char* toText(AllowanceRule rule);

}  // namespace tinwright
