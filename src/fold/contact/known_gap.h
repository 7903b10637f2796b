// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <iterator>
#include <optional>

#include "kernel/gap_bound.h"
#include "machine/machine.h"

namespace tinwright {

/// A clearance as far as it was asked for.
struct KnownGap {
    double beyond_mm = -1;  ///< proven to be at least this
    std::optional<GapBound> gap;
};

/// A quick proof halves the stroke this often.
inline constexpr int kQuickDepth = 3;

/// Proofs are tried at few margins, so that a proof serves many caps. No cap is over the last.
inline constexpr double kProofMargins_mm[] = {0.5, 1.0, 2.0, kClearanceCap_mm};

/// The least gap is found to some hundredths under the true one. It is raised to a margin that is proven past it: else
/// it would be told or not depending on which caps were asked for before.
template <class Beyond>
[[nodiscard]] GapBound raised(GapBound gap, Beyond beyond) {
    for (const double margin_mm : kProofMargins_mm) {
        if (margin_mm <= gap.gap_mm) continue;
        if (!beyond(margin_mm)) break;
        gap.gap_mm = margin_mm;
    }
    return gap;
}

/// The gap where it is under the cap, found out only as far as that takes: `beyond(margin_mm)` tries to prove a margin
/// quickly, `least()` finds the gap.
template <class Beyond, class Least>
[[nodiscard]] std::optional<GapBound> knownUnder(double cap_mm, KnownGap& known, Beyond beyond, Least least) {
    if (!known.gap && known.beyond_mm < cap_mm) {
        const double margin_mm =
            *std::lower_bound(std::begin(kProofMargins_mm), std::end(kProofMargins_mm) - 1, cap_mm);
        if (beyond(margin_mm)) {
            known.beyond_mm = margin_mm;
        } else {
            known.gap = raised(least(), beyond);
        }
    }
    return known.gap && known.gap->gap_mm < cap_mm ? known.gap : std::nullopt;
}

}  // namespace tinwright
