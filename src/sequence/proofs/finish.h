// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "reach/reach.h"

namespace tinwright::search {

/// One question: is there an order at all? Undecided folds count as possible.
class FinishQuestion {
public:
    FinishQuestion(FoldOracle& oracle, const CoFoldable& co_foldable, std::uint64_t max_states);

    /// Nothing when the limit was reached.
    [[nodiscard]] std::optional<bool> answer() { return reach_.finishes(co_foldable_.start); }
    /// After a yes: the steps of an order.
    [[nodiscard]] std::vector<CandidateStroke> order();
    /// After a no: what forbids every order, unless a part of the proof rests on nothing that can be told.
    [[nodiscard]] std::optional<std::vector<ForbiddenStroke>> forbiddenStrokes() const;
    [[nodiscard]] std::uint64_t statesOpened() const { return budget_.states(); }

private:
    SearchOptions options_;
    WorkBudget budget_;
    const CoFoldable& co_foldable_;
    StateTable table_;
    BackwardReach backward_;
    Reach reach_;
};

}  // namespace tinwright::search
