// SPDX-License-Identifier: GPL-3.0-or-later
#include "rank.h"

#include <algorithm>
#include <utility>

namespace tinwright::search {

Rank Rank::with(const StepCost& step) const {
    return {tight || step.tight, time_ms + step.time_ms, pieces + step.pieces, std::min(clearance_um, step.clearance_um)};
}

Sequence sequenceOf(const std::vector<OrderStep>& steps) {
    Sequence sequence;
    for (const OrderStep& step : steps) sequence.emplace_back(step.move.bends, step.move.hold);
    return sequence;
}

std::strong_ordering BestOrders::compareWithLast(const Rank& rank) const {
    return full() ? rank <=> orders_.back().rank : std::strong_ordering::less;
}

void BestOrders::offer(Rank rank, std::vector<OrderStep> steps) {
    Entry entry{rank, sequenceOf(steps), std::move(steps)};
    const auto comesBefore = [](const Entry& a, const Entry& b) {
        return a.rank == b.rank ? a.sequence < b.sequence : a.rank < b.rank;
    };
    const auto place = std::lower_bound(orders_.begin(), orders_.end(), entry, comesBefore);
    // The rank follows from the sequence, so an order that is listed already is found at its own place.
    if (place != orders_.end() && place->sequence == entry.sequence) return;
    orders_.insert(place, std::move(entry));
    if (orders_.size() > wanted_) orders_.pop_back();
}

std::vector<Order> BestOrders::take() {
    std::vector<Order> orders;
    for (Entry& entry : orders_) {
        const std::int64_t clearance_um = entry.steps.empty() ? 0 : entry.rank.clearance_um;
        orders.push_back({std::move(entry.steps), entry.rank.time_ms, entry.rank.pieces, clearance_um, entry.rank.tight});
    }
    orders_.clear();
    return orders;
}

}  // namespace tinwright::search
