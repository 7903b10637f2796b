// SPDX-License-Identifier: GPL-3.0-or-later
#include "reach/backward_reach.h"

#include <algorithm>

#include "states/bits.h"

namespace tinwright::search {

namespace {

/// Over so many bends the subsets are too many to look for one that helps; the state is just asked.
constexpr int kFewBends = 10;

/// n over k, or the limit if that is less; each partial product is itself a binomial number.
std::uint64_t binomialUpTo(std::uint64_t n, std::uint64_t k, std::uint64_t limit) {
    std::uint64_t value = 1;
    for (std::uint64_t i = 1; i <= std::min(k, n - k); ++i) {
        value = value * (n - std::min(k, n - k) + i) / i;
        if (value >= limit) return limit;
    }
    return value;
}

/// Calls `visit(subset)` for each subset of `bends` of that size until it says false.
template <class Visit>
bool forEachSubset(BendMask bends, int size, BendMask chosen, Visit& visit) {
    if (size == 0) return visit(chosen);
    for (BendMask rest = bends; std::popcount(rest) >= size; rest &= rest - 1) {
        const BendMask lowest = rest & -rest;
        if (!forEachSubset(rest & ~lowest, size - 1, chosen | lowest, visit)) return false;
    }
    return true;
}

Finish throughMove(const CandidateStroke& candidate, Finish after) {
    if (candidate.answer == StrokeAnswer::kImpossible) return Finish::kNo;
    return candidate.answer == StrokeAnswer::kUndecided ? std::min(after, Finish::kMaybe) : after;
}

}  // namespace

BackwardReach::BackwardReach(StateTable& table) : table_(table) { finish_.emplace(table.all(), Finish::kYes); }

std::optional<Finish> BackwardReach::known(BendMask formed) const {
    const int unformed = std::popcount(table_.all() & ~formed);
    if (unformed > level_) return closed_ ? std::optional(Finish::kNo) : std::nullopt;
    const auto found = finish_.find(formed);
    return found == finish_.end() ? Finish::kNo : found->second;
}

void BackwardReach::advance(std::uint64_t states) {
    const int bends = std::popcount(table_.coFoldable().free());
    while (!closed_ && level_ < bends) {
        const auto count =
            binomialUpTo(static_cast<std::uint64_t>(bends), static_cast<std::uint64_t>(level_) + 1, states + 1);
        if (count > states || !nextLayer()) return;
    }
}

/// False when the budget stopped it; what was worked out stays, but the level does not count as done.
bool BackwardReach::nextLayer() {
    hopeful_ = false;
    auto settleWithout = [&](BendMask unformed) { return settle(table_.all() & ~unformed); };
    if (!forEachSubset(table_.coFoldable().free(), level_ + 1, 0, settleWithout)) return false;
    ++level_;
    barren_ = hopeful_ ? 0 : barren_ + 1;
    // A way to the finished part would have to step into one of the last levels: no step forms more bends.
    closed_ = barren_ >= table_.coFoldable().largestOfAll();
    return true;
}

bool BackwardReach::settle(BendMask formed) {
    if (!hasHopefulSuccessor(formed)) return true;
    const std::vector<CandidateStroke>* candidates = table_.candidates(formed);
    if (!candidates) return false;
    Finish best = Finish::kNo;
    for (const CandidateStroke& candidate : *candidates) {
        best = std::max(best, throughMove(candidate, known(formed | candidate.bends).value_or(Finish::kNo)));
    }
    if (best == Finish::kNo) return true;
    finish_[formed] = best;
    hopeful_ = true;
    return true;
}

bool BackwardReach::hasHopefulSuccessor(BendMask formed) const {
    const BendMask unformed = table_.all() & ~formed;
    const CoFoldable& co_foldable = table_.coFoldable();
    for (BendMask rest = unformed; rest != 0; rest &= rest - 1) {
        const BendMask first = rest & -rest;
        const BendMask others = co_foldable.with[static_cast<std::size_t>(std::countr_zero(first))] & rest & ~first;
        if (std::popcount(others) > kFewBends) return true;
        BendMask more = 0;
        do {
            if (co_foldable.mayFoldTogether(first | more) && finish_.contains(formed | first | more)) return true;
            more = (more - others) & others;
        } while (more != 0);
    }
    return false;
}

}  // namespace tinwright::search
