// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/part/part.h>

#include <tinwright/base/contract.h>

namespace tinwright {

BendMask allFormed(const Part& part) {
    TINWRIGHT_REQUIRE(part.bends.size() <= kMaxBends, "a part has at most 64 bends");
    return part.bends.size() == kMaxBends ? ~BendMask{0} : (BendMask{1} << part.bends.size()) - 1;
}

}  // namespace tinwright
