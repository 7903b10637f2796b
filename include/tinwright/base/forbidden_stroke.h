// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/base/stroke.h>

namespace tinwright {

/// Strokes that cannot be made while certain bends are formed and certain others are not, whatever the rest.
struct ForbiddenStroke : Stroke {
    /// True: it is of one bend, and every stroke is meant that folds it, held so, alone or with others that are neither
    /// in `mask` nor in `not_with`.
    bool any_company = false;
    BendMask mask = 0;      ///< bends whose state matters; none of `bends`
    BendMask formed = 0;    ///< those of `mask` that are formed
    BendMask not_with = 0;  ///< bends that do not matter unless they are folded by the same stroke

    /// True in states where it forbids its strokes.
    [[nodiscard]] bool holdsIn(BendMask state) const { return (state & mask) == formed; }
    /// True for the strokes that it means, `stroke` holding the bends as this one does.
    [[nodiscard]] bool means(BendMask stroke) const {
        return any_company ? (stroke & bends) == bends && (stroke & (mask | not_with)) == 0 : stroke == bends;
    }
    /// True when it is known of this stroke, by its first bend, that it is held as this one says, is meant and cannot
    /// be made in the state. How the other bends of a stroke are held is not known from it.
    [[nodiscard]] bool forbids(BendMask state, const Stroke& stroke) const {
        return hold == stroke.hold && first() == stroke.first() && holdsIn(state) && means(stroke.bends);
    }
    friend bool operator==(const ForbiddenStroke&, const ForbiddenStroke&) = default;
};

}  // namespace tinwright
