// SPDX-License-Identifier: GPL-3.0-or-later
#include "dive.h"

#include <algorithm>

namespace tinwright::search {

namespace {

constexpr std::size_t kOffersPerWanted = 4;

class Dive {
public:
    Dive(StateTable& table, Reach& reach, BestOrders& best) : table_(table), reach_(reach), best_(best) {}

    /// Recursive: no deeper than there are bends. Never enters a state that cannot be finished from, so its work is in
    /// proportion to the orders found.
    DiveEnd from(BendMask formed, Standing standing, Rank rank) {
        if (formed == table_.all()) return take(rank);
        const std::vector<FoldMove>* moves = table_.moves(formed);
        if (!moves) return DiveEnd::kStopped;
        for (const OrderStep& step : choices(*moves, formed, standing)) {
            const BendMask after = formed | step.move.bends;
            const std::optional<bool> finishes = reach_.finishes(after);
            if (!finishes) return DiveEnd::kStopped;
            if (!*finishes) continue;
            steps_.push_back(step);
            const DiveEnd end = from(after, step.cost.after, rank.with(step.cost));
            steps_.pop_back();
            if (end != DiveEnd::kAll) return end;
        }
        return DiveEnd::kAll;
    }

private:
    DiveEnd take(const Rank& rank) {
        best_.offer(rank, steps_);
        // Orders that are alike are told once, and may be many.
        return best_.full() || ++offered_ >= kOffersPerWanted * best_.wanted() ? DiveEnd::kEnough : DiveEnd::kAll;
    }

    /// Cheapest first; ties stay in the order of (bends, hold).
    std::vector<OrderStep> choices(const std::vector<FoldMove>& moves, BendMask formed, Standing standing) {
        std::vector<OrderStep> steps;
        for (const FoldMove& move : moves) {
            if (move.answer != FoldAnswer::kPossible) continue;
            steps.push_back({move, standing, formed, table_.cost(formed, standing, move)});
        }
        std::stable_sort(steps.begin(), steps.end(), [](const OrderStep& a, const OrderStep& b) {
            return Rank().with(a.cost) < Rank().with(b.cost);
        });
        return steps;
    }

    StateTable& table_;
    Reach& reach_;
    BestOrders& best_;
    std::vector<OrderStep> steps_;
    std::size_t offered_ = 0;
};

}  // namespace

DiveEnd dive(StateTable& table, Reach& reach, BestOrders& best) {
    return Dive(table, reach, best).from(table.joins().start, kNothingStanding, Rank());
}

}  // namespace tinwright::search
