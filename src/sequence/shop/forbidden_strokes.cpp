// SPDX-License-Identifier: GPL-3.0-or-later
#include "shop/forbidden_strokes.h"

namespace tinwright {

const ForbiddenStroke* ForbiddenStrokes::find(BendMask formed, const Stroke& stroke) const {
    const ForbiddenStroke* least = nullptr;
    for (const ForbiddenStroke& forbidden : by_first_[slotOf(stroke.first(), stroke.hold)]) {
        if (!forbidden.holdsIn(formed) || !forbidden.means(stroke.bends) || (forbidden.mask & stroke.bends) != 0)
            continue;
        if (least == nullptr || countBends(forbidden.mask) < countBends(least->mask)) least = &forbidden;
    }
    return least;
}

void ForbiddenStrokes::keep(const ForbiddenStroke& forbidden, const Stroke& stroke, BendMask all_bends) {
    const bool general = (forbidden.mask | forbidden.bends | forbidden.not_with) != all_bends;
    if (general && forbidden.hold == stroke.hold && forbidden.first() == stroke.first())
        by_first_[slotOf(stroke.first(), stroke.hold)].push_back(forbidden);
}

}  // namespace tinwright
