// SPDX-License-Identifier: GPL-3.0-or-later
#include "proofs/relaxed_oracle.h"

#include <algorithm>

#include "states/bits.h"

namespace tinwright::search {

const std::vector<FoldMove>& StrokeLists::of(BendMask formed) {
    auto& slot = lists_[formed];
    if (!slot) slot = std::make_unique<std::vector<FoldMove>>(oracle_.strokes(formed));
    return *slot;
}

const std::vector<FoldMove>& RelaxedOracle::moves(BendMask formed) {
    auto& slot = moves_[formed];
    if (slot) return *slot;
    slot = std::make_unique<std::vector<FoldMove>>(strokes_.of(formed));
    for (FoldMove& move : *slot) {
        const bool no =
            forbids(formed, move.bends, move.hold) != nullptr || heldNeitherWay(formed, move.bends, move.hold);
        move.answer = no ? FoldAnswer::kImpossible : FoldAnswer::kPossible;
    }
    return *slot;
}

/// A fact about this very stroke, or about its first bend in company.
const ForbiddenStroke* RelaxedOracle::forbids(BendMask formed, BendMask bends, std::uint8_t hold) const {
    const auto found = std::find_if(forbidden_.begin(), forbidden_.end(), [&](const ForbiddenStroke& forbidden) {
        return forbidden.hold == hold && (forbidden.bends & -forbidden.bends) == (bends & -bends) &&
               forbidden.holdsIn(formed) && forbidden.means(bends);
    });
    return found == forbidden_.end() ? nullptr : &*found;
}

/// How the other bends of a stroke are held is not known here; one that can be held neither way stops it all the same.
std::optional<ForbiddenStroke> RelaxedOracle::heldNeitherWay(BendMask formed, BendMask bends, std::uint8_t hold) const {
    std::optional<ForbiddenStroke> result;
    forEachBend(bends, [&](std::size_t b) {
        const ForbiddenStroke* held[2] = {nullptr, nullptr};
        for (const ForbiddenStroke& forbidden : forbidden_) {
            if (forbidden.any_company && forbidden.bends == bit(idAt<BendId>(b)) && forbidden.holdsIn(formed) &&
                forbidden.means(bends))
                held[forbidden.hold] = &forbidden;
        }
        if (held[0] == nullptr || held[1] == nullptr || result) return;
        const BendMask mask = held[0]->mask | held[1]->mask;
        result = ForbiddenStroke{bends, hold, false, mask, formed & mask, 0};
    });
    return result;
}

ForbiddenStroke RelaxedOracle::why(BendMask formed, BendMask bends, std::uint8_t hold) {
    if (const ForbiddenStroke* forbidden = forbids(formed, bends, hold)) return *forbidden;
    if (const auto both = heldNeitherWay(formed, bends, hold)) return *both;
    return strokes_.oracle().why(formed, bends, hold);  // no stroke of this state
}

const std::vector<FoldMove>& LateOracle::moves(BendMask formed) {
    const std::vector<FoldMove>& list = listed(formed);
    for (std::size_t i = 0; i < list.size(); ++i) static_cast<void>(answered(formed, i));
    return list;
}

const std::vector<FoldMove>& LateOracle::listed(BendMask formed) {
    auto& slot = moves_[formed];
    if (!slot) slot = std::make_unique<std::vector<FoldMove>>(real_.listed(formed));
    return *slot;
}

const FoldMove& LateOracle::answered(BendMask formed, std::size_t index) {
    FoldMove& move = moves_.at(formed)->at(index);
    if (tooEarly(formed, move.bends)) {
        move.answer = FoldAnswer::kImpossible;
    } else {
        move = real_.answered(formed, index);
    }
    return move;
}

ForbiddenStroke LateOracle::why(BendMask formed, BendMask bends, std::uint8_t hold) {
    if (!tooEarly(formed, bends)) return real_.why(formed, bends, hold);
    const BendMask mask = bit(early_) & ~bends;
    return {bends, hold, false, mask, 0, 0};
}

}  // namespace tinwright::search
