// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <compare>
#include <cstdint>
#include <limits>
#include <optional>
#include <tuple>
#include <utility>
#include <vector>

#include <tinwright/sequence/search/search.h>

namespace tinwright::search {

/// What orders are ranked by, but for the sequence of strokes that settles ties. Less is better.
struct Rank {
    Spoils spoils;
    bool tight = false;
    std::int64_t time_ms = 0;
    std::int64_t larger_behind = 0;
    std::int64_t pieces = 0;
    std::int64_t clearance_um = std::numeric_limits<std::int64_t>::max();  ///< of no step at all

    [[nodiscard]] Rank with(const StepCost& step) const;
    [[nodiscard]] std::tuple<int, int, bool, std::int64_t, std::int64_t, std::int64_t, std::int64_t> key() const {
        return {spoils.surely, spoils.maybe, tight, time_ms, larger_behind, pieces, -clearance_um};
    }
    friend std::strong_ordering operator<=>(const Rank& a, const Rank& b) { return a.key() <=> b.key(); }
    friend bool operator==(const Rank& a, const Rank& b) { return a.key() == b.key(); }
};

/// The strokes of an order, compared as a dictionary orders words.
using Sequence = std::vector<Stroke>;
[[nodiscard]] Sequence sequenceOf(const std::vector<OrderStep>& steps);

/// What orders that are alike have in common: step for step the kinds of bends that it folds, ascending, and the hold.
using Likeness = std::vector<std::pair<std::vector<std::uint32_t>, Side>>;

/// The best orders met so far, at most K, no two alike.
class BestOrders {
public:
    BestOrders(std::size_t wanted, const FoldOracle& oracle) : wanted_(wanted), oracle_(oracle) {}

    void offer(Rank rank, std::vector<OrderStep> steps);
    [[nodiscard]] bool full() const { return orders_.size() == wanted_; }
    [[nodiscard]] std::size_t wanted() const { return wanted_; }
    [[nodiscard]] static Likeness::value_type likenessOf(const CandidateStroke& candidate, const FoldOracle& oracle);
    /// How this rank compares with that of the last of K orders; less while there are fewer.
    [[nodiscard]] std::strong_ordering compareWithLast(const Rank& rank) const;
    /// The same for a tie in rank.
    [[nodiscard]] bool comesAfterLast(const Sequence& sequence) const { return sequence > orders_.back().sequence; }
    [[nodiscard]] const Rank* first() const { return orders_.empty() ? nullptr : &orders_.front().rank; }
    [[nodiscard]] const Rank* last() const { return full() ? &orders_.back().rank : nullptr; }
    /// The steps of the first order that was offered (since it was forgotten); null when none was.
    [[nodiscard]] const std::vector<OrderStep>* firstFound() const { return first_found_ ? &*first_found_ : nullptr; }
    void forgetFirstFound() { first_found_.reset(); }
    [[nodiscard]] std::vector<Order> take();

private:
    struct Entry {
        Rank rank;
        Sequence sequence;
        Likeness likeness;
        std::vector<OrderStep> steps;
    };
    std::size_t wanted_;
    const FoldOracle& oracle_;
    std::vector<Entry> orders_;  // best first
    std::optional<std::vector<OrderStep>> first_found_;
};

}  // namespace tinwright::search
