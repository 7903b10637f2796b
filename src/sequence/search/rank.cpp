// SPDX-License-Identifier: GPL-3.0-or-later
#include "search/rank.h"

#include <algorithm>
#include <utility>

#include "states/bits.h"

namespace tinwright::search {

Rank Rank::with(const StepCost& step) const {
    return {spoils + step.spoils,   tight || step.tight,
            time_ms + step.time_ms, larger_behind + step.larger_behind,
            pieces + step.pieces,   std::min(clearance_um, step.clearance_um)};
}

Sequence sequenceOf(const std::vector<OrderStep>& steps) {
    Sequence sequence;
    for (const OrderStep& step : steps) sequence.push_back(step.stroke);
    return sequence;
}

std::strong_ordering BestOrders::compareWithLast(const Rank& rank) const {
    return full() ? rank <=> orders_.back().rank : std::strong_ordering::less;
}

Likeness::value_type BestOrders::likenessOf(const CandidateStroke& candidate, const FoldOracle& oracle) {
    std::vector<std::uint32_t> kinds;
    forEachBend(candidate.bends, [&](std::size_t b) { kinds.push_back(oracle.kind(idAt<BendId>(b))); });
    std::sort(kinds.begin(), kinds.end());
    return {std::move(kinds), candidate.hold};
}

void BestOrders::offer(Rank rank, std::vector<OrderStep> steps) {
    if (!first_found_) first_found_ = steps;
    Likeness likeness;
    for (const OrderStep& step : steps) likeness.push_back(likenessOf(step.stroke, oracle_));
    Entry entry{rank, sequenceOf(steps), std::move(likeness), std::move(steps)};
    const auto comesBefore = [](const Entry& a, const Entry& b) {
        return a.rank == b.rank ? a.sequence < b.sequence : a.rank < b.rank;
    };
    const auto alike = std::find_if(orders_.begin(), orders_.end(),
                                    [&](const Entry& other) { return other.likeness == entry.likeness; });
    if (alike != orders_.end()) {
        if (!comesBefore(entry, *alike)) return;
        orders_.erase(alike);
    }
    orders_.insert(std::lower_bound(orders_.begin(), orders_.end(), entry, comesBefore), std::move(entry));
    if (orders_.size() > wanted_) orders_.pop_back();
}

std::vector<Order> BestOrders::take() {
    std::vector<Order> orders;
    for (Entry& entry : orders_) {
        const std::int64_t clearance_um = entry.steps.empty() ? 0 : entry.rank.clearance_um;
        orders.push_back({std::move(entry.steps), entry.rank.spoils, entry.rank.time_ms, entry.rank.larger_behind,
                          entry.rank.pieces, clearance_um, entry.rank.tight});
    }
    orders_.clear();
    return orders;
}

}  // namespace tinwright::search
