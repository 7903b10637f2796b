// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet_parts.h"

namespace tinwright::report {

std::optional<CutProcess> cutProcess(const SheetWork&) { return std::nullopt; }

}  // namespace tinwright::report
