// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <bit>

#include <tinwright/base/ids.h>

namespace tinwright::search {

[[nodiscard]] constexpr BendMask allBends(std::size_t count) {
    return count == kMaxBends ? ~BendMask{0} : (BendMask{1} << count) - 1;
}

[[nodiscard]] constexpr bool within(BendMask part, BendMask whole) { return (part & ~whole) == 0; }

/// Calls `visit(index)` for each bend of the set, ascending.
template <class Visit>
constexpr void forEachBend(BendMask bends, Visit visit) {
    for (; bends != 0; bends &= bends - 1) visit(static_cast<std::size_t>(std::countr_zero(bends)));
}

}  // namespace tinwright::search
