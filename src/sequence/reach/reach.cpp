// SPDX-License-Identifier: GPL-3.0-or-later
#include "reach/reach.h"

#include <algorithm>
#include <bit>
#include <numeric>

namespace tinwright::search {

namespace {

/// Steps that form most bends come to an end soonest; ties stay as listed.
std::vector<std::size_t> largestFirst(const std::vector<CandidateStroke>& candidates) {
    std::vector<std::size_t> order(candidates.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return std::popcount(candidates[a].bends) > std::popcount(candidates[b].bends);
    });
    return order;
}

}  // namespace

Reach::Reach(StateTable& table, BackwardReach& backward, With with)
    : table_(table),
      backward_(backward),
      with_(with),
      no_goods_(table, with == With::kUndecided ? NoGoods::Undecided::kPossible : NoGoods::Undecided::kImpossible) {}

std::optional<bool> Reach::known(BendMask formed) const {
    if (formed == table_.all()) return true;
    if (const auto found = finishes_.find(formed); found != finishes_.end()) return found->second;
    if (no_goods_.caught(formed)) return false;
    const std::optional<Finish> level = backward_.known(formed);
    if (!level) return std::nullopt;
    return *level == Finish::kYes || (*level == Finish::kMaybe && with_ == With::kUndecided);
}

bool Reach::counts(const CandidateStroke& candidate) const {
    return candidate.answer == StrokeAnswer::kPossible ||
           (candidate.answer == StrokeAnswer::kUndecided && with_ == With::kUndecided);
}

/// Recursive: no deeper than there are bends.
std::optional<bool> Reach::finishes(BendMask formed) {
    if (const std::optional<bool> before = known(formed)) {
        if (!*before && !no_goods_.caught(formed)) no_goods_.addState(formed);  // known from working backwards
        return before;
    }
    const std::vector<CandidateStroke>* candidates = table_.listed(formed);
    if (!candidates) return std::nullopt;
    std::vector<std::size_t> left = largestFirst(*candidates);
    for (const bool quickly : {true, false}) {
        std::vector<std::size_t> take_long;
        for (const std::size_t index : left) {
            const BendMask next = formed | (*candidates)[index].bends;
            if (!table_.isAnswered(formed, index) && no_goods_.caught(next)) continue;  // possible or not
            if (quickly && !table_.answersQuickly(formed, index)) {
                take_long.push_back(index);  // what is learned meanwhile may spare the answer
                continue;
            }
            if (!counts(table_.answered(formed, index))) continue;
            const std::optional<bool> after = finishes(next);
            if (!after) return std::nullopt;
            if (*after) return settle(formed, true);
            if (no_goods_.caught(formed)) return false;  // what was learned beyond holds here too
        }
        left = std::move(take_long);
    }
    return settle(formed, false);
}

bool Reach::settle(BendMask formed, bool finishes) {
    if (finishes) {
        finishes_.emplace(formed, true);
    } else if (!no_goods_.learn(formed)) {
        // Half as many as the dead ends met: what working backwards can cost stays in proportion to what it can save.
        backward_.advance(++blunt_dead_ends_ / 2);
    }
    return finishes;
}

}  // namespace tinwright::search
