// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/sequence/states/oracle.h>

#include "states/bits.h"

namespace tinwright {

ForbiddenStroke FoldOracle::why(BendMask formed, BendMask bends, std::uint8_t hold) {
    const BendMask others = search::allBends(bendCount()) & ~bends;
    return {bends, hold, false, others, formed & others, 0};
}

}  // namespace tinwright
