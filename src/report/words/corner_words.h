// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include <tinwright/brake/plan/reason.h>
#include <tinwright/report/data/fold_context.h>

namespace tinwright::report {

/// "0.4 mm off the end of wall_right, or 3.5° of slant there, and it goes": what of the remedies opens the corner where
/// the reason says that two flanges meet; empty when none was found.
[[nodiscard]] std::string openedWords(const FoldContext& on, const Reason& reason);

}  // namespace tinwright::report
