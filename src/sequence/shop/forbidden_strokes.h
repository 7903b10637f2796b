// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <vector>

#include <tinwright/base/forbidden_stroke.h>

namespace tinwright {

/// What was found before to forbid strokes, told again where it holds: it is general, and asked for over and over.
class ForbiddenStrokes {
public:
    explicit ForbiddenStrokes(std::size_t bends) : by_first_(2 * bends) {}

    /// What forbids the stroke in the state, as few bends as are known; null: nothing in hand.
    [[nodiscard]] const ForbiddenStroke* find(BendMask formed, const Stroke& stroke) const;
    /// Found for this stroke. What says no more than that it is so in one state is not kept.
    void keep(const ForbiddenStroke& forbidden, const Stroke& stroke, BendMask all_bends);

private:
    std::vector<std::vector<ForbiddenStroke>> by_first_;  // by the first bend and how it is held
};

}  // namespace tinwright
