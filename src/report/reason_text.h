// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/brake/plan.h>
#include <tinwright/part/part.h>

namespace tinwright::report {

/// Why folds cannot be made, as a list: the fold, the side held, and the sentence.
[[nodiscard]] std::string reasonsText(const Part& part, const std::vector<Reason>& reasons);

}  // namespace tinwright::report
