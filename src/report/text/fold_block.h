// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "document/fold_entry.h"

namespace tinwright::report {

/// One fold as text: which bends, how to hold, bars, sight line, swing, clearance, what comes out and how.
[[nodiscard]] std::string foldText(const FoldEntry& fold);

}  // namespace tinwright::report
