// SPDX-License-Identifier: GPL-3.0-or-later
#include "search/greedy_descent.h"

#include <algorithm>
#include <bit>
#include <limits>
#include <queue>
#include <set>

namespace tinwright::search {

namespace {

constexpr std::size_t kOffersPerWanted = 4;
constexpr std::int64_t kNoCutoff_ms = std::numeric_limits<std::int64_t>::max();
constexpr std::size_t kStatesWithin = 400;  // entered by descendWithin

/// The steps out of a state, what promises least first. Strokes are asked only when their turn comes.
class Choices {
public:
    Choices(StateTable& table, const Bounds& bounds, const std::vector<CandidateStroke>& listed, BendMask formed,
            MachineState machine_state, const Rank& rank)
        : table_(table), bounds_(bounds), formed_(formed), machine_state_(machine_state), rank_(rank) {
        for (std::size_t i = 0; i < listed.size(); ++i) addUnasked(listed[i], i);
    }

    /// Leaves out what promises more than the cutoff; `over_ms` becomes the least of that.
    std::optional<OrderStep> next(std::int64_t cutoff_ms, std::int64_t& over_ms) {
        while (!open_.empty()) {
            const Choice choice = open_.top();
            open_.pop();
            if (choice.rank.time_ms > cutoff_ms) {
                over_ms = std::min(over_ms, choice.rank.time_ms);
                continue;
            }
            if (choice.asked) return OrderStep{*choice.candidate, machine_state_, formed_, choice.cost};
            const CandidateStroke& candidate = table_.answered(formed_, choice.index);
            if (candidate.answer != StrokeAnswer::kPossible) continue;
            std::size_t option = 0;
            for (const StepCost& cost : table_.costs(formed_, machine_state_, candidate)) {
                Choice asked{rank_.with(cost), &candidate, choice.index, option++, 0, true, cost};
                if (add(asked, bounds_.of(formed_ | candidate.bends, cost.after))) open_.push(asked);
            }
        }
        return std::nullopt;
    }

private:
    struct Choice {
        Rank rank;  // with the bound
        const CandidateStroke* candidate = nullptr;
        std::size_t index = 0;
        std::size_t option = 0;
        std::int64_t rest_ms = 0;
        bool asked = false;
        StepCost cost;
    };
    struct Later {
        /// Of what promises the same: more bends first, then what has more of its time behind it, since less of that is
        /// a guess.
        static auto key(const Choice& choice) {
            return std::tuple(choice.rank.spoils, choice.rank.tight, choice.rank.time_ms,
                              -std::popcount(choice.candidate->bends), choice.rest_ms, choice.rank.key(), choice.index,
                              choice.option);
        }
        bool operator()(const Choice& a, const Choice& b) const { return key(a) > key(b); }
    };

    void addUnasked(const CandidateStroke& candidate, std::size_t index) {
        Choice choice{rank_, &candidate, index, 0, 0, false, {}};
        if (add(choice, bounds_.by(formed_, machine_state_, candidate))) open_.push(choice);
    }

    static bool add(Choice& choice, const Remaining& rest) {
        choice.rank.spoils += rest.spoils;
        choice.rank.time_ms += rest.time_ms;
        choice.rank.pieces += rest.pieces;
        choice.rest_ms = rest.time_ms;
        return rest.finishes;
    }

    StateTable& table_;
    const Bounds& bounds_;
    BendMask formed_;
    MachineState machine_state_;
    Rank rank_;
    std::priority_queue<Choice, std::vector<Choice>, Later> open_;
};

class GreedyDescent {
public:
    GreedyDescent(StateTable& table, Reach& reach, const Bounds& bounds, BestOrders& best,
                  std::int64_t cutoff_ms = kNoCutoff_ms)
        : table_(table), reach_(reach), bounds_(bounds), best_(best), cutoff_ms_(cutoff_ms) {}

    /// Recursive: no deeper than there are bends. Never enters a state that cannot be finished from, so its work is in
    /// proportion to the orders found.
    DescentEnd from(BendMask formed, MachineState machine_state, const Rank& rank) {
        if (formed == table_.all()) return take(rank);
        if (cutoff_ms_ != kNoCutoff_ms && !entered_.insert({formed, machine_state}).second) return DescentEnd::kAll;
        if (cutoff_ms_ != kNoCutoff_ms && entered_.size() > kStatesWithin) return DescentEnd::kEnough;
        const std::vector<CandidateStroke>* listed = table_.listed(formed);
        if (!listed) return DescentEnd::kStopped;
        Choices choices(table_, bounds_, *listed, formed, machine_state, rank);
        while (const std::optional<OrderStep> step = choices.next(cutoff_ms_, over_ms_)) {
            const BendMask after = formed | step->stroke.bends;
            const std::optional<bool> finishes = reach_.finishes(after);
            if (!finishes) return DescentEnd::kStopped;
            if (!*finishes) continue;
            steps_.push_back(*step);
            const DescentEnd end = from(after, step->cost.after, rank.with(step->cost));
            steps_.pop_back();
            if (end != DescentEnd::kAll) return end;
        }
        return DescentEnd::kAll;
    }

    /// The least that a step left out promises; the largest number when none was.
    [[nodiscard]] std::int64_t over_ms() const { return over_ms_; }

private:
    DescentEnd take(const Rank& rank) {
        best_.offer(rank, steps_);
        if (cutoff_ms_ != kNoCutoff_ms)
            return best_.last() != nullptr && best_.last()->time_ms <= cutoff_ms_ ? DescentEnd::kEnough
                                                                                  : DescentEnd::kAll;
        // Orders that are alike are told once, and may be many.
        return best_.full() || ++offered_ >= kOffersPerWanted * best_.wanted() ? DescentEnd::kEnough : DescentEnd::kAll;
    }

    StateTable& table_;
    Reach& reach_;
    const Bounds& bounds_;
    BestOrders& best_;
    std::int64_t cutoff_ms_;
    std::int64_t over_ms_ = kNoCutoff_ms;
    std::set<std::pair<BendMask, MachineState>> entered_;
    std::vector<OrderStep> steps_;
    std::size_t offered_ = 0;
};

}  // namespace

DescentEnd greedyDescent(StateTable& table, Reach& reach, const Bounds& bounds, BestOrders& best) {
    return GreedyDescent(table, reach, bounds, best).from(table.coFoldable().start, kNothingSetUp, Rank());
}

void offerKnown(StateTable& table, Reach& reach, BestOrders& best) {
    std::vector<OrderStep> steps;
    BendMask formed = table.coFoldable().start;
    MachineState machine_state = kNothingSetUp;
    Rank rank;
    while (formed != table.all()) {
        const std::vector<CandidateStroke>* listed = table.listed(formed);
        std::optional<OrderStep> next;
        for (std::size_t i = 0; listed != nullptr && i < listed->size() && !next; ++i) {
            if (reach.known(formed | (*listed)[i].bends) != true) continue;
            const CandidateStroke& candidate = table.answered(formed, i);
            if (candidate.answer == StrokeAnswer::kPossible)
                next =
                    OrderStep{candidate, machine_state, formed, table.costs(formed, machine_state, candidate).front()};
        }
        if (!next) return;
        steps.push_back(*next);
        rank = rank.with(next->cost);
        formed |= next->stroke.bends;
        machine_state = next->cost.after;
    }
    best.offer(rank, std::move(steps));
}

bool descendWithin(StateTable& table, Reach& reach, const Bounds& bounds, BestOrders& best) {
    if (best.first() == nullptr) return true;
    std::int64_t cutoff_ms = best.first()->time_ms;
    for (int pass = 0; pass < 4 && cutoff_ms != kNoCutoff_ms; ++pass) {
        GreedyDescent descent(table, reach, bounds, best, cutoff_ms);
        const DescentEnd end = descent.from(table.coFoldable().start, kNothingSetUp, Rank());
        if (end == DescentEnd::kStopped) return false;
        if (end == DescentEnd::kEnough) return true;
        cutoff_ms = descent.over_ms();
    }
    return true;
}

}  // namespace tinwright::search
