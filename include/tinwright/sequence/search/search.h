// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include <tinwright/sequence/states/oracle.h>
#include <tinwright/sequence/states/search_options.h>

namespace tinwright {

/// How a search ended.
enum class SearchEnd {
    kFound,           ///< there is an order of possible folds
    kProvenNone,      ///< there is none, even if every undecided fold were possible
    kBudgetSpent,     ///< a limit was reached before either was known
    kUndecidedFolds,  ///< there is none of possible folds, but one if some undecided folds were possible
};

/// A stroke with its set-up, in an order.
struct OrderStep {
    CandidateStroke stroke;
    MachineState before = kNothingSetUp;
    BendMask formed = 0;  ///< before the step
    StepCost cost;
};

struct Order {
    std::vector<OrderStep> steps;
    Spoils spoils;
    std::int64_t time_ms = 0;
    std::int64_t larger_behind = 0;  ///< steps with the larger side at the back gauge
    std::int64_t pieces = 0;
    std::int64_t clearance_um = 0;  ///< worst; 0 when there is no step
    bool tight = false;             ///< some step is
};

struct SearchResult {
    SearchEnd end = SearchEnd::kProvenNone;
    /// Best first, at most K, each the best of its like: orders are alike when step for step they fold bends of the
    /// same kinds, held the same way.
    std::vector<Order> orders;
    /// No limit cut the list short, and no undecided fold, were it possible, could bring in an order that takes less
    /// time than the last one listed (or, when fewer than K, a tight one or one that spoils more than any order must is
    /// listed, any order at all).
    bool proven_best = false;
    /// No order that spoils as little, and is no tighter, takes less than this: the first one's time when it is
    /// proven best, else what could be shown before a limit.
    std::int64_t least_ms = 0;
    bool out_of_memory = false;   ///< `max_bytes` ended something
    bool out_of_time = false;     ///< the seconds guard ended something; another run may differ
    std::string orders_feasible;  ///< decimal, empty when not counted
    std::string orders_total;     ///< decimal, empty when not counted
    /// When no order was found: of the states reached by possible folds that have none left, the one with the most
    /// bends formed, then the smallest mask. Exact unless `max_dead_ends` or a limit ended the look for it, or
    /// states are reached only by folds that take long to answer for (FoldOracle::answersQuickly).
    BendMask deepest = 0;
    std::uint64_t states_opened = 0;  ///< states whose strokes were asked, each once
    std::uint64_t labels_opened = 0;  ///< partial orders taken further
};

/// The K best orders from `formed` to all bends formed. Ranked: what spoils less first; then orders without a tight
/// step; then time, fewer steps with the larger side at the back gauge (common practice: the smaller side goes to the
/// stops, the larger is held in front), pieces, larger worst clearance; then the sequence of (bends, hold), so that
/// ties are settled too.
///
/// `orders_feasible` counts sequences of steps. In each state the steps that count are, in each line, the largest
/// sets of bends that can be formed in one stroke with either side held (largest: contained in no other). It is empty
/// when a limit is reached, when the truth of an undecided fold would change it, and when no order counts although
/// orders exist (some parts need bends of one line folded apart where they could be folded together).
/// `orders_total` counts sequences of whole lines, possible or not.
[[nodiscard]] SearchResult searchOrders(FoldOracle& oracle, BendMask formed, const SearchOptions& options);

}  // namespace tinwright
