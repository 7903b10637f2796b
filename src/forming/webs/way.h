// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "webs/web_trouble.h"

namespace tinwright::forming {

/// One bend made with one of its sides swung and the other held.
struct Way {
    BendId bend;
    Side side = Side::kChild;  ///< that is swung
    Leg swung;
    Leg held;
    std::optional<WebTrouble> when_swung;
    std::optional<WebTrouble> when_held;
    LegTrouble swing_again;
    LegTrouble hold_again;

    /// 0: nothing to say; then note, warning and fault.
    [[nodiscard]] int badness() const;
};
inline constexpr int kBadWay = 2;  ///< Way::badness of a warning

[[nodiscard]] Way wayOf(const Part& part, const std::optional<Strength>& strength, const WebTools& tools, BendId bend,
                        Side swung);

}  // namespace tinwright::forming
