// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/sequence/states/oracle.h>

#include "states/bits.h"

namespace tinwright {

ForbiddenStroke FoldOracle::why(BendMask formed, const Stroke& stroke) {
    const BendMask others = search::allBends(bendCount()) & ~stroke.bends;
    return {stroke, false, others, formed & others, 0};
}

}  // namespace tinwright
