// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

/// Numbers and lists as a person at the bench reads them.
namespace tinwright {

/// At most one decimal, and none of "-0" and ".0": "12.3", "60". Not finite: "?".
[[nodiscard]] std::string shortNumber(double value);

/// "1 bend", "3 bends".
[[nodiscard]] std::string counted(std::size_t count, const std::string& noun);

/// "a, b and c" of things already in words.
[[nodiscard]] std::string listed(const std::vector<std::string>& things);

}  // namespace tinwright
