// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/plan/plan.h>
#include <tinwright/part/model/part.h>

namespace tinwright::report {

/// Where a fold stands in its order.
struct FoldPlace {
    std::size_t number = 1;  ///< from 1
    std::size_t count = 1;   ///< folds of the order
    BendMask formed_before = 0;
    const FoldStep* before = nullptr;  ///< the fold before it, if any
};

/// One fold as a card: which bends, how to hold, bars, sight line, swing, clearance, what comes out and how.
[[nodiscard]] std::string foldText(const Part& part, const BrakeInSetup& brake, const FoldStep& step,
                                   const FoldPlace& place);

/// The same sentence by sentence, for pages that set them in their own way. Empty: nothing to say.
struct FoldWords {
    std::string hold;
    std::string sight;
    std::string bars;  ///< of a press brake its punches
    std::string dies;  ///< of a press brake
    std::string stand;
    std::string swing;
    std::string clearance;
    std::string tolerances;
    std::string closing;              ///< of hems
    std::vector<std::string> way_in;  ///< in order, empty when it is nothing special
    std::vector<std::string> way_out;
};
[[nodiscard]] FoldWords foldWords(const Part& part, const BrakeInSetup& brake, const FoldStep& step,
                                  const FoldPlace& place);

/// True when the same pieces stand at the same places on the machine as for the fold before, though the part may lie
/// elsewhere.
[[nodiscard]] bool barsStay(const FoldStep& step, const FoldPlace& place);

/// True when bars and part simply lift away, so that nothing needs to be said about it.
[[nodiscard]] bool leavesPlainly(const FoldStep& step);

}  // namespace tinwright::report
