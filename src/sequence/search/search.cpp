// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/sequence/search/search.h>

#include <algorithm>
#include <limits>

#include <tinwright/base/contract.h>

#include "reach/dead_end.h"
#include "search/bound.h"
#include "search/count.h"
#include "search/greedy_descent.h"
#include "search/label_search.h"
#include "states/bits.h"

namespace tinwright {

namespace search {

namespace {

/// So many labels are kept with the quick bound first: small parts are done by then.
constexpr std::size_t kQuickLabels = 300;

class Run {
public:
    Run(FoldOracle& oracle, BendMask formed, const SearchOptions& options)
        : options_(options),
          budget_(options),
          co_foldable_(findCoFoldable(oracle, formed)),
          table_(oracle, co_foldable_, budget_),
          backward_(table_),
          possible_(table_, backward_, Reach::With::kPossible),
          undecided_(table_, backward_, Reach::With::kUndecided),
          best_(options.plans, oracle),
          bounds_(oracle, co_foldable_) {}

    SearchResult result() {
        budget_.allow(options_.max_states);
        result_.end = findEnd();
        if (result_.end == SearchEnd::kFound) result_.proven_best = findBest();
        result_.orders = best_.take();
        if (result_.end != SearchEnd::kFound && options_.find_deepest) findDeepest();
        if (!options_.verdict_only) count();
        result_.states_opened = budget_.states();
        result_.out_of_time = budget_.outOfTime();
        result_.out_of_memory = budget_.outOfMemory();
        return std::move(result_);
    }

private:
    SearchEnd findEnd() {
        const BendMask start = co_foldable_.start;
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
        result_.least_ms = bounds_.quickTime_ms(co_foldable_.free());
        DescentEnd end = greedyDescent(table_, possible_, bounds_, best_);
        if (best_.first() == nullptr) offerKnown(table_, possible_, best_);
        if (shareSetUps() && end == DescentEnd::kAll) end = greedyDescent(table_, possible_, bounds_, best_);
        if (end == DescentEnd::kAll) {
            if (!table_.sawUndecided()) result_.least_ms = best_.first()->time_ms;
            return !table_.sawUndecided();
        }
        if (end == DescentEnd::kStopped || options_.verdict_only) return false;
        if (const std::optional<bool> proven = rankAll(kQuickLabels)) return *proven;
        // It is no small part: a bound that costs more to ask for, and from then on better orders and set-ups to share.
        if (bounds_.sharpen()) {
            best_.forgetFirstFound();
            if (greedyDescent(table_, possible_, bounds_, best_) == DescentEnd::kStopped) return false;
            static_cast<void>(shareSetUps());
            if (!descendWithin(table_, possible_, bounds_, best_)) return false;
        }
        return rankAll(std::numeric_limits<std::size_t>::max()).value_or(false);
    }

    /// Nothing when it would keep more labels than that.
    std::optional<bool> rankAll(std::size_t most_labels) {
        LabelSearch labels(table_, bounds_, possible_, best_);
        const LabelEnd end = labels.run(most_labels);
        result_.labels_opened += labels.opened();
        result_.least_ms = std::max(result_.least_ms, std::min(labels.least_ms(), labels.leastUndecided_ms()));
        if (end == LabelEnd::kMany) return std::nullopt;
        const std::int64_t safe_ms = labels.leastUndecided_ms();
        const Rank* last = best_.last();  // none: fewer than K that are not alike
        const bool any_matters =
            last == nullptr || last->tight || last->spoils > bounds_.quickSpoils(co_foldable_.free());
        const bool undecided_is_worse = any_matters ? !table_.sawUndecided() : safe_ms >= last->time_ms;
        return end == LabelEnd::kAll && undecided_is_worse;
    }

    /// What the steps that may come last need, and what the first order found sets up last, may do for other steps as
    /// well.
    bool shareSetUps() {
        std::vector<MachineState> after;
        for (const StepFamily& family : bounds_.families()) addLast(family.bends, after);
        if (best_.firstFound() != nullptr) {
            for (auto step = best_.firstFound()->rbegin(); step != best_.firstFound()->rend(); ++step)
                after.push_back(step->cost.after);
        }
        return table_.oracle().share(after);
    }

    void addLast(BendMask bends, std::vector<MachineState>& after) {
        const BendMask formed = co_foldable_.all & ~bends;
        const std::vector<CandidateStroke>* listed = table_.listed(formed);
        for (std::size_t i = 0; listed != nullptr && i < listed->size(); ++i) {
            if ((*listed)[i].bends != bends) continue;
            const CandidateStroke& candidate = table_.oracle().answered(formed, i);  // perhaps of a state that no order
                                                                                     // comes to
            if (candidate.answer == StrokeAnswer::kPossible)
                after.push_back(table_.costs(formed, kNothingSetUp, candidate).front().after);
        }
    }

    void findDeepest() {
        budget_.allow(result_.end == SearchEnd::kBudgetSpent ? 0 : options_.max_dead_ends);
        result_.deepest = deepestDeadEnd(table_);
    }

    void count() {
        result_.orders_total = countTotal(table_, options_.max_counted_states);
        if (result_.end == SearchEnd::kProvenNone) {
            result_.orders_feasible = "0";
            return;
        }
        budget_.allow(options_.max_counted_states);
        result_.orders_feasible = countFeasible(table_, possible_, undecided_);
        if (result_.orders_feasible == "0") result_.orders_feasible.clear();
    }

    const SearchOptions& options_;
    WorkBudget budget_;
    CoFoldable co_foldable_;
    StateTable table_;
    BackwardReach backward_;
    Reach possible_;
    Reach undecided_;
    BestOrders best_;
    Bounds bounds_;
    SearchResult result_;
};

}  // namespace

}  // namespace search

SearchResult searchOrders(FoldOracle& oracle, BendMask formed, const SearchOptions& options) {
    TINWRIGHT_REQUIRE(options.plans >= 1, "at least one order is wanted");
    TINWRIGHT_REQUIRE(oracle.bendCount() <= kMaxBends, "a mask holds all bends");
    TINWRIGHT_REQUIRE(search::within(formed, search::allBends(oracle.bendCount())),
                      "only bends of the part are formed");
    return search::Run(oracle, formed, options).result();
}

}  // namespace tinwright
