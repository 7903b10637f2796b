// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include <tinwright/brake/plan/plan.h>

namespace tinwright::report {

/// How a bar or the part leaves.
[[nodiscard]] std::string wayOutWords(const ExitMove& move);

/// How a bar or the part goes in, from the motion by which it would come out: that motion told backwards.
[[nodiscard]] std::string wayInWords(const ExitMove& move);

}  // namespace tinwright::report
