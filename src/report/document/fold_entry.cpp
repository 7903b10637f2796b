// SPDX-License-Identifier: GPL-3.0-or-later
#include "document/fold_entry.h"

#include <fmt/format.h>

#include "sentences/time_text.h"
#include "words/words.h"

namespace tinwright::report {

FoldEntry foldEntry(const FoldContext& on, const FoldStep& step, const FoldPlace& place, const FoldActions& actions) {
    const std::string name =
        fmt::format("Fold {} of {}: {}", place.number, place.count, strokeName(on.part, step.bends()));
    const std::string several = countBends(step.stroke.bends) > 1
                                    ? fmt::format(" ({} bends in one stroke)", countBends(step.stroke.bends))
                                    : std::string();
    const std::optional<BarDatum> datum = barDatum(on.part, place.formed_before, on.brake.inside_radius_mm(), step);
    return {on,
            step,
            place,
            name,
            name + several,
            datum,
            toolsStay(step, place),
            foldWords(on, step, place, datum),
            foldTime_ms(on.shop.times, actions),
            timeText(on.shop.times, actions)};
}

}  // namespace tinwright::report
