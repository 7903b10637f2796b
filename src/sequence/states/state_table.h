// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <unordered_map>
#include <unordered_set>
#include <vector>

#include <tinwright/sequence/states/oracle.h>

#include "states/co_foldable.h"
#include "states/work_budget.h"

namespace tinwright::search {

/// Asks the oracle for the strokes of each state at most once, against the budget, and checks what it says.
class StateTable {
public:
    StateTable(FoldOracle& oracle, const CoFoldable& co_foldable, WorkBudget& budget);

    /// Null when the state was not opened before and the budget allows no more.
    [[nodiscard]] const std::vector<CandidateStroke>* candidates(BendMask formed);
    /// The same with answers only where they were asked for.
    [[nodiscard]] const std::vector<CandidateStroke>* listed(BendMask formed);
    /// One of them, answered.
    [[nodiscard]] const CandidateStroke& answered(BendMask formed, std::size_t index);
    /// Answers it unless that takes long.
    [[nodiscard]] bool answersQuickly(BendMask formed, std::size_t index);
    [[nodiscard]] bool isAnswered(BendMask formed, std::size_t index) const {
        return oracle_.isAnswered(formed, index);
    }
    /// The costs of a stroke, checked against the bounds that the oracle promised.
    [[nodiscard]] std::vector<StepCost> costs(BendMask formed, MachineState before, const CandidateStroke& candidate,
                                              std::int64_t most_ms = kNever_ms);
    [[nodiscard]] std::vector<BendMask> lines(BendMask formed);
    /// FoldOracle::why, checked.
    [[nodiscard]] ForbiddenStroke why(BendMask formed, const Stroke& stroke);

    [[nodiscard]] const FoldOracle& oracle() const { return oracle_; }
    [[nodiscard]] FoldOracle& oracle() { return oracle_; }
    [[nodiscard]] const CoFoldable& coFoldable() const { return co_foldable_; }
    [[nodiscard]] WorkBudget& budget() { return budget_; }
    [[nodiscard]] BendMask all() const { return co_foldable_.all; }
    /// Some state that was opened has an undecided stroke.
    [[nodiscard]] bool sawUndecided() const { return saw_undecided_; }

private:
    void check(BendMask formed, const std::vector<CandidateStroke>& candidates) const;

    FoldOracle& oracle_;
    const CoFoldable& co_foldable_;
    WorkBudget& budget_;
    std::unordered_map<BendMask, const std::vector<CandidateStroke>*> candidates_;  // looked up only, never walked
    std::unordered_set<BendMask> complete_;                                         // all answered
    bool saw_undecided_ = false;
};

}  // namespace tinwright::search
