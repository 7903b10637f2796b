// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/sequence/search.h>

#include <limits>

#include <tinwright/base/contract.h>

#include "bits.h"
#include "bound.h"
#include "count.h"
#include "dive.h"
#include "label_search.h"
#include "stuck.h"

namespace tinwright {

namespace search {

namespace {

class Run {
public:
    Run(FoldOracle& oracle, BendMask formed, const SearchOptions& options)
        : options_(options), meter_(options), joins_(findJoins(oracle, formed)), table_(oracle, joins_, meter_),
          levels_(table_), possible_(table_, levels_, Reach::With::kPossible),
          undecided_(table_, levels_, Reach::With::kUndecided), best_(options.plans), bound_(makeBound(oracle, joins_)) {}

    SearchResult result() {
        meter_.allow(options_.max_states);
        result_.end = findEnd();
        if (result_.end == SearchEnd::kFound) result_.proven_best = findBest();
        result_.orders = best_.take();
        if (result_.end != SearchEnd::kFound) findDeepest();
        if (!options_.verdict_only) count();
        result_.states_opened = meter_.states();
        result_.out_of_time = meter_.outOfTime();
        return std::move(result_);
    }

private:
    SearchEnd findEnd() {
        const BendMask start = joins_.start;
        if (const std::optional<bool> sure = possible_.finishes(start); sure != false) {
            return sure ? SearchEnd::kFound : SearchEnd::kBudgetSpent;
        }
        if (!table_.sawUndecided()) return SearchEnd::kProvenNone;
        const std::optional<bool> maybe = undecided_.finishes(start);
        if (!maybe) return SearchEnd::kBudgetSpent;
        return *maybe ? SearchEnd::kUndecidedFolds : SearchEnd::kProvenNone;
    }

    /// True when the list is proven to be the best.
    bool findBest() {
        const DiveEnd end = dive(table_, possible_, best_);
        if (end == DiveEnd::kStopped) return false;
        if (end == DiveEnd::kAll) return !table_.sawUndecided();
        if (options_.verdict_only) return false;
        LabelSearch labels(table_, bound_, possible_, best_);
        const bool finished = labels.run();
        result_.labels_opened = labels.opened();
        const std::int64_t safe_ms = labels.leastUndecided_ms();
        const bool undecided_is_worse = best_.last()->tight ? !table_.sawUndecided() : safe_ms >= best_.last()->time_ms;
        return finished && undecided_is_worse;
    }

    void findDeepest() {
        meter_.allow(result_.end == SearchEnd::kBudgetSpent ? 0 : options_.max_stuck_states);
        result_.deepest = deepestStuck(table_);
    }

    void count() {
        result_.orders_total = countTotal(table_, options_.max_counted_states);
        if (result_.end == SearchEnd::kProvenNone) {
            result_.orders_feasible = "0";
            return;
        }
        meter_.allow(options_.max_counted_states);
        result_.orders_feasible = countFeasible(table_, possible_, undecided_);
        if (result_.orders_feasible == "0") result_.orders_feasible.clear();
    }

    const SearchOptions& options_;
    Meter meter_;
    Joins joins_;
    StateTable table_;
    Levels levels_;
    Reach possible_;
    Reach undecided_;
    BestOrders best_;
    Bound bound_;
    SearchResult result_;
};

}  // namespace

}  // namespace search

SearchResult searchOrders(FoldOracle& oracle, BendMask formed, const SearchOptions& options) {
    TINWRIGHT_REQUIRE(options.plans >= 1, "at least one order is wanted");
    TINWRIGHT_REQUIRE(oracle.bendCount() <= kMaxBends, "a mask holds all bends");
    TINWRIGHT_REQUIRE(search::within(formed, search::allBends(oracle.bendCount())), "only bends of the part are formed");
    return search::Run(oracle, formed, options).result();
}

}  // namespace tinwright
