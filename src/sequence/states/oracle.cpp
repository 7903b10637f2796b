// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/sequence/states/oracle.h>

#include "states/bits.h"

namespace tinwright {

Spoils FoldOracle::spoilsLowerBound(const Stroke& stroke) {
    Spoils spoils;
    search::forEachBend(stroke.bends, [&](std::size_t b) { spoils += spoilsLowerBound(idAt<BendId>(b)); });
    return spoils;
}

ForbiddenStroke FoldOracle::why(BendMask formed, const Stroke& stroke) {
    const BendMask others = search::allBends(bendCount()) & ~stroke.bends;
    return {stroke, false, others, formed & others, 0};
}

}  // namespace tinwright
