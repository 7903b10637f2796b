// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/machines/shop.h>

namespace tinwright {

ToleranceBox Shop::tolerancesFor(const Part& part) const {
    return toleranceBox(tolerances, part, cutting ? std::optional(cutting->process) : std::nullopt);
}

}  // namespace tinwright
