// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/pinned_oracle.h"

namespace tinwright {

PinnedOracle::List& PinnedOracle::list(BendMask formed) {
    auto& slot = lists_[formed];
    if (slot) return *slot;
    slot = std::make_unique<List>();
    const std::vector<CandidateStroke>& all = real_.listed(formed);
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (!allows(formed, all[i])) continue;
        slot->strokes.push_back(all[i]);
        slot->places.push_back(i);
    }
    return *slot;
}

const std::vector<CandidateStroke>& PinnedOracle::candidates(BendMask formed) {
    const std::vector<CandidateStroke>& strokes = listed(formed);
    for (std::size_t i = 0; i < strokes.size(); ++i) static_cast<void>(answered(formed, i));
    return strokes;
}

const CandidateStroke& PinnedOracle::answered(BendMask formed, std::size_t index) {
    List& own = list(formed);
    return own.strokes[index] = real_.answered(formed, own.places[index]);
}

std::vector<CandidateStroke> PinnedOracle::strokes(BendMask formed) {
    std::vector<CandidateStroke> some = real_.strokes(formed);
    std::erase_if(some, [&](const CandidateStroke& stroke) { return !allows(formed, stroke); });
    return some;
}

// What lies on no line is told as geometry has it: how its bends would be held has no answer there.
ForbiddenStroke PinnedOracle::why(BendMask formed, const Stroke& stroke) {
    if (const auto pin = pinOnOrder(formed, stroke)) return *pin;
    if (const auto pin = pinOnFirstHold(stroke)) return *pin;
    if (!pins_.holds.empty() && !engine_.conflictSetOfLine(formed, stroke)) {
        if (const auto pin = pinOnOtherHolds(formed, stroke)) return *pin;
    }
    return real_.why(formed, stroke);
}

std::optional<ForbiddenStroke> PinnedOracle::pinOn(BendMask formed, const Stroke& stroke) {
    if (const auto pin = pinOnOrder(formed, stroke)) return pin;
    if (const auto pin = pinOnFirstHold(stroke)) return pin;
    return pinOnOtherHolds(formed, stroke);
}

/// First strokes: while one of them is open, the next of them is made and no other. A bend of it that the stroke leaves
/// flat forbids the stroke in every state in which it is flat; a stroke that takes all that is open of it, and is
/// another than it, is never made.
std::optional<ForbiddenStroke> PinnedOracle::pinOnOrder(BendMask formed, const Stroke& stroke) const {
    for (const BendMask first : pins_.first) {
        const BendMask open = first & ~formed;
        if (open == 0) continue;
        if (stroke.bends == first) break;
        const BendMask left_flat = open & ~stroke.bends;
        return ForbiddenStroke{stroke, false, left_flat == 0 ? 0 : bit(firstBend(left_flat)), 0, 0};
    }
    for (const BeforePin& pin : pins_.before) {
        if (contains(stroke.bends, pin.then) && !contains(stroke.bends | formed, pin.first))
            return ForbiddenStroke{stroke, false, bit(pin.first), 0, 0};
    }
    return std::nullopt;
}

/// Whatever is made with it.
std::optional<ForbiddenStroke> PinnedOracle::pinOnFirstHold(const Stroke& stroke) const {
    for (const HoldPin& pin : pins_.holds) {
        if (pin.bend == stroke.first() && pin.hold != stroke.hold)
            return ForbiddenStroke{{bit(pin.bend), stroke.hold}, true, 0, 0, 0};
    }
    return std::nullopt;
}

/// How a further bend is held hangs on the bends between it and the first.
std::optional<ForbiddenStroke> PinnedOracle::pinOnOtherHolds(BendMask formed, const Stroke& stroke) {
    for (const HoldPin& pin : pins_.holds) {
        const bool is_further = contains(stroke.bends, pin.bend) && pin.bend != stroke.first();
        if (!is_further || engine_.holdOf(formed, stroke, pin.bend) == pin.hold) continue;
        const BendMask between = engine_.between(bit(stroke.first()) | bit(pin.bend)) & ~stroke.bends;
        return ForbiddenStroke{stroke, false, between, formed & between, 0};
    }
    return std::nullopt;
}

}  // namespace tinwright
