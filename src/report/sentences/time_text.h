// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/plan/plan_time.h>

namespace tinwright::report {

/// "55 s: fold 20 s, gauge 15 s, tools 20 s": what a fold takes by the shop's times, and of what that is the sum.
[[nodiscard]] std::string timeText(const Times& times, const FoldActions& actions);

}  // namespace tinwright::report
