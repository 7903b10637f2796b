// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <vector>

#include <tinwright/part/model/part.h>

namespace tinwright {

/// By bend: equal numbers for bends whose flanges, with all that hangs on them, have the same shape or mirror each
/// other.
[[nodiscard]] std::vector<std::uint32_t> flangeKinds(const Part& part);

}  // namespace tinwright
