// SPDX-License-Identifier: GPL-3.0-or-later
#include "proofs/relaxed_oracle.h"

#include <algorithm>

#include "states/bits.h"

namespace tinwright::search {

const std::vector<CandidateStroke>& StrokeLists::of(BendMask formed) {
    auto& slot = lists_[formed];
    if (!slot) slot = std::make_unique<std::vector<CandidateStroke>>(oracle_.strokes(formed));
    return *slot;
}

const std::vector<CandidateStroke>& RelaxedOracle::candidates(BendMask formed) {
    auto& slot = candidates_[formed];
    if (slot) return *slot;
    slot = std::make_unique<std::vector<CandidateStroke>>(strokes_.of(formed));
    for (CandidateStroke& candidate : *slot) {
        const bool no = forbids(formed, candidate) != nullptr || heldNeitherWay(formed, candidate);
        candidate.answer = no ? StrokeAnswer::kImpossible : StrokeAnswer::kPossible;
    }
    return *slot;
}

/// What forbids this very stroke, or its first bend in any company.
const ForbiddenStroke* RelaxedOracle::forbids(BendMask formed, const Stroke& stroke) const {
    const auto found = std::find_if(forbidden_.begin(), forbidden_.end(), [&](const ForbiddenStroke& forbidden) {
        return forbidden.forbids(formed, stroke);
    });
    return found == forbidden_.end() ? nullptr : &*found;
}

/// How the other bends of a stroke are held is not known here; one that can be held neither way stops it all the same.
std::optional<ForbiddenStroke> RelaxedOracle::heldNeitherWay(BendMask formed, const Stroke& stroke) const {
    std::optional<ForbiddenStroke> result;
    forEachBend(stroke.bends, [&](std::size_t b) {
        const ForbiddenStroke* held[2] = {nullptr, nullptr};
        for (const ForbiddenStroke& forbidden : forbidden_) {
            if (forbidden.any_company && forbidden.bends == bit(idAt<BendId>(b)) && forbidden.holdsIn(formed) &&
                forbidden.means(stroke.bends))
                held[static_cast<std::size_t>(forbidden.hold)] = &forbidden;
        }
        if (held[0] == nullptr || held[1] == nullptr || result) return;
        const BendMask mask = held[0]->mask | held[1]->mask;
        result = ForbiddenStroke{stroke, false, mask, formed & mask, 0};
    });
    return result;
}

ForbiddenStroke RelaxedOracle::why(BendMask formed, const Stroke& stroke) {
    if (const ForbiddenStroke* forbidden = forbids(formed, stroke)) return *forbidden;
    if (const auto both = heldNeitherWay(formed, stroke)) return *both;
    return strokes_.oracle().why(formed, stroke);  // no stroke of this state
}

const std::vector<CandidateStroke>& LateOracle::candidates(BendMask formed) {
    const std::vector<CandidateStroke>& list = listed(formed);
    for (std::size_t i = 0; i < list.size(); ++i) static_cast<void>(answered(formed, i));
    return list;
}

const std::vector<CandidateStroke>& LateOracle::listed(BendMask formed) {
    auto& slot = candidates_[formed];
    if (!slot) slot = std::make_unique<std::vector<CandidateStroke>>(real_.listed(formed));
    return *slot;
}

const CandidateStroke& LateOracle::answered(BendMask formed, std::size_t index) {
    CandidateStroke& candidate = candidates_.at(formed)->at(index);
    if (tooEarly(formed, candidate.bends)) {
        candidate.answer = StrokeAnswer::kImpossible;
    } else {
        candidate = real_.answered(formed, index);
    }
    return candidate;
}

ForbiddenStroke LateOracle::why(BendMask formed, const Stroke& stroke) {
    if (!tooEarly(formed, stroke.bends)) return real_.why(formed, stroke);
    const BendMask mask = bit(early_) & ~stroke.bends;
    return {stroke, false, mask, 0, 0};
}

}  // namespace tinwright::search
