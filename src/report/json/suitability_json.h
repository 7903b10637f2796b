// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/sequence/remedies/suit.h>

#include "data/json_values.h"

namespace tinwright::report {

/// What planning a version of the part came to; details only when an order works.
[[nodiscard]] Json suitability(const Suitability& what);

}  // namespace tinwright::report
