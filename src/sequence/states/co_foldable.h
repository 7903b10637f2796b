// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/sequence/states/oracle.h>

namespace tinwright::search {

/// Which bends can ever be formed by one step, in any state that can still come.
struct CoFoldable {
    BendMask start = 0;  ///< formed before the first step
    BendMask all = 0;
    std::vector<BendMask> with;  ///< by bend, itself included; symmetric; empty for bends of `start`
    std::vector<int> largest;    ///< by bend: no step that forms it forms more bends than this

    [[nodiscard]] BendMask free() const { return all & ~start; }
    [[nodiscard]] bool mayFoldTogether(BendMask bends) const;
    [[nodiscard]] bool never() const { return largestOfAll() <= 1; }
    [[nodiscard]] int largestOfAll() const;
};

/// Asks the oracle, and looks at the lines of every state when they are few.
[[nodiscard]] CoFoldable findCoFoldable(FoldOracle& oracle, BendMask start);

}  // namespace tinwright::search
