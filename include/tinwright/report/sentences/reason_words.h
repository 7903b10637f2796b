// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include <tinwright/brake/plan/reason.h>
#include <tinwright/report/data/fold_context.h>

namespace tinwright {

/// Why a fold cannot be made, as a fabricator would say it; it names the fold and the side held. `reason`: of this part
/// on this brake.
[[nodiscard]] std::string reasonWords(const FoldContext& on, const Reason& reason);

}  // namespace tinwright
