// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/brake/plan.h>
#include <tinwright/part/part.h>

namespace tinwright::report {

/// Why folds cannot be made, as a list. The sentence of a reason names fold and side held itself.
[[nodiscard]] std::string reasonsText(const Part& part, const std::vector<Reason>& reasons);

}  // namespace tinwright::report
