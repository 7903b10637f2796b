// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/plan/plan.h>
#include <tinwright/part/model/part.h>
#include <tinwright/report/data/bar_datum.h>
#include <tinwright/report/data/fold_context.h>

#include "data/fold_place.h"

namespace tinwright::report {

/// What is said of one fold. Empty: nothing to say.
struct FoldWords {
    std::string hold;
    std::string gauging;
    std::string packing;            ///< under the sheet; empty: none
    std::vector<std::string> care;  ///< what is to be done besides
    struct Tools {
        const char* label;  ///< "Bars", "Punches", "Dies"
        std::string words;
    };
    std::vector<Tools> tools;  ///< a row each
    std::string stand;
    std::string stroke;
    std::string clearance;
    std::string tolerances;
    std::string closing;              ///< of hems
    std::vector<std::string> way_in;  ///< in order, empty when it is nothing special
    std::vector<std::string> way_out;
};
/// `datum`: where the rule lies that its bars are put by.
[[nodiscard]] FoldWords foldWords(const FoldContext& on, const FoldStep& step, const FoldPlace& place,
                                  const std::optional<BarDatum>& datum);

/// True when the same pieces stand at the same places on the machine as for the fold before, though the part may lie
/// elsewhere.
[[nodiscard]] bool toolsStay(const FoldStep& step, const FoldPlace& place);

/// True when bars and part simply lift away, so that nothing needs to be said about it.
[[nodiscard]] bool leavesPlainly(const FoldStep& step);

}  // namespace tinwright::report
