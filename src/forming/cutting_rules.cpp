// SPDX-License-Identifier: GPL-3.0-or-later
#include "rule_tables.h"

namespace tinwright::forming {

std::span<const Rule> cuttingRules() { return {}; }

}  // namespace tinwright::forming
