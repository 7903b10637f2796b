// SPDX-License-Identifier: GPL-3.0-or-later
#include "shop/split_oracle.h"

#include <algorithm>

namespace tinwright {

namespace {

// A fold is possible when it is on any brake, and impossible only when it is on none.
StrokeAnswer better(StrokeAnswer a, StrokeAnswer b) {
    if (a == StrokeAnswer::kPossible || b == StrokeAnswer::kPossible) return StrokeAnswer::kPossible;
    return a == StrokeAnswer::kUndecided || b == StrokeAnswer::kUndecided ? StrokeAnswer::kUndecided
                                                                          : StrokeAnswer::kImpossible;
}

}  // namespace

SplitOracle::SplitOracle(const Part& part, const Shop& shop, const std::array<On, kBrakes>& on,
                         const std::vector<double>& radii_mm, const Material* material)
    : carry_ms_(shop.times.carry_ms), stands_(1) {
    for (std::size_t i = 0; i < kBrakes; ++i) {
        oracles_[i] = std::make_unique<ShopOracle>(part, shop, on[i].brake, Demand::kPossible, radii_mm, material);
        may_[i] = on[i].may;
    }
    stand_ids_.emplace(Stand{}, kNothingSetUp);
}

const std::vector<CandidateStroke>& SplitOracle::candidates(BendMask formed) {
    const auto [entry, is_new] = candidates_.try_emplace(formed);
    if (!is_new) return entry->second;
    std::map<Stroke, CandidateStroke> merged;  // in the order in which strokes are listed
    for (std::size_t i = 0; i < kBrakes; ++i) {
        for (const CandidateStroke& candidate : oracles_[i]->candidates(formed)) {
            if (!mayMake(i, candidate.bends)) continue;
            const auto [of, is_first] = merged.try_emplace(candidate, candidate);
            if (is_first) {
                of->second.handle = static_cast<std::uint32_t>(known_.size());
                known_.emplace_back();
            }
            of->second.answer = is_first ? candidate.answer : better(of->second.answer, candidate.answer);
            known_[of->second.handle].on[i] = candidate;
        }
    }
    for (const auto& [key, candidate] : merged) entry->second.push_back(candidate);
    return entry->second;
}

StepCost SplitOracle::cost(BendMask formed, MachineState before, const CandidateStroke& candidate) {
    return costs(formed, before, candidate, kNever_ms).front();
}

std::vector<StepCost> SplitOracle::costs(BendMask formed, MachineState before, const CandidateStroke& candidate,
                                         std::int64_t most_ms) {
    std::vector<StepCost> all;
    for (std::size_t i = 0; i < kBrakes; ++i) {
        const std::optional<CandidateStroke> own = known_[candidate.handle].on[i];
        if (!own || own->answer != StrokeAnswer::kPossible) continue;
        const Stand from = stands_[before];
        const std::int64_t carry_ms = from.on == kBrakes || from.on == i ? 0 : carry_ms_;
        for (StepCost cost : oracles_[i]->costs(formed, from.each[i], *own, most_ms)) {
            Stand to = from;
            to.on = i;
            to.each[i] = cost.after;
            cost.time_ms += carry_ms;
            cost.after = intern(to);
            all.push_back(cost);
        }
    }
    std::stable_sort(all.begin(), all.end(), [](const StepCost& a, const StepCost& b) {
        return std::tie(a.spoils, a.tight, a.time_ms, a.larger_behind, a.pieces) <
               std::tie(b.spoils, b.tight, b.time_ms, b.larger_behind, b.pieces);
    });
    return all;
}

Spoils SplitOracle::spoilsLowerBound(BendId bend) {
    std::optional<Spoils> least;
    for (std::size_t i = 0; i < kBrakes; ++i) {
        if (!mayMake(i, bit(bend))) continue;
        const Spoils own = oracles_[i]->spoilsLowerBound(bend);
        if (!least || own < *least) least = own;
    }
    return least.value_or(Spoils{});
}

// What one brake alone may make is forbidden by what forbids it there. Where both may, both must hold, and be of
// the same strokes.
ForbiddenStroke SplitOracle::why(BendMask formed, const Stroke& stroke) {
    std::optional<ForbiddenStroke> all;
    for (std::size_t i = 0; i < kBrakes; ++i) {
        if (!mayMake(i, stroke.bends)) continue;
        const ForbiddenStroke own = oracles_[i]->why(formed, stroke);
        if (!all) {
            all = own;
            continue;
        }
        if (all->bends != own.bends || all->hold != own.hold || all->any_company != own.any_company)
            return FoldOracle::why(formed, stroke);
        all->mask |= own.mask;
        all->formed |= own.formed;
        all->not_with |= own.not_with;
    }
    // Of company it speaks for its own brake: with bends of the other nothing is made in one stroke anyway.
    return all ? *all : FoldOracle::why(formed, stroke);
}

MachineState SplitOracle::intern(const Stand& stand) {
    const auto [entry, is_new] = stand_ids_.try_emplace(stand, static_cast<MachineState>(stands_.size()));
    if (is_new) stands_.push_back(stand);
    return entry->second;
}

}  // namespace tinwright
