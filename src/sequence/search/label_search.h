// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <limits>
#include <map>
#include <optional>
#include <queue>
#include <unordered_map>
#include <utility>
#include <vector>

#include <tinwright/base/hash.h>

#include "reach/reach.h"
#include "search/bound.h"
#include "search/rank.h"

namespace tinwright::search {

enum class LabelEnd {
    kAll,      ///< the best orders are proven
    kMany,     ///< as many labels are kept as were allowed
    kStopped,  ///< the budget ran out
};

/// A* over labels. A label is a partial order: one sequence of (bends, hold) from the start, which fixes its state
/// (formed, standing) and its costs, since cost() depends on (formed, before, stroke) alone. Labels are opened in
/// ascending order of (rank with the bound added, sequence); a label's successors come after it in that order, as
/// no part of a rank improves by a step (the bound is consistent) and a beginning comes before what it begins.
///
/// Why the K best are found. The rank is not a sum: of two labels A, B of one state with equal sums (time, larger sides
/// at the back, pieces), A with the larger clearance ranks first, but a later step with a small clearance makes them
/// equal, and then the sequence decides, perhaps for B. So keeping the K best of a state would be wrong. A label B is
/// dropped only when K other labels of its state dominate it, where A dominates B if it spoils less, or as much and is
/// not tight or B is, and either A's sums, the one before the other, are less, or it is equal and A has no smaller
/// clearance and the smaller sequence (or the same, with other set-ups, and is older). Then for every way s to finish,
/// A+s ranks strictly before B+s: both pay the same for s, as they start from the same state; and as neither sequence
/// begins the other (they form the same bends), appending s keeps their order. So an order through B has K different
/// orders before it and is none of the K best. The argument needs only that the K dominating orders exist, not that the
/// search keeps them. A beginning of one of the K best is therefore never dropped; it is never later than the worst
/// order in hand (which bounds the search from above); so it is opened before the search ends.
///
/// Orders that are alike are told once, by the best of them. The K dominating labels must then begin K orders no two of
/// which are alike; and one label that dominates B and is like it is enough, since every way to finish B then has a
/// like one before it.
///
/// What spoils and tight are the first parts of the rank: labels that may still spoil less, and of those the ones
/// without a tight step, are all opened before the others, which makes this the passes "clean, then with trouble" and
/// "comfortable, then tight if fewer than K" in one.
class LabelSearch {
public:
    LabelSearch(StateTable& table, Bounds& bounds, Reach& reach, BestOrders& best);

    /// Unless it is kAll, `best` has what was found until then.
    [[nodiscard]] LabelEnd run(std::size_t most_labels = std::numeric_limits<std::size_t>::max());
    /// No order with an undecided fold takes less than this; the largest number when none can exist.
    [[nodiscard]] std::int64_t leastUndecided_ms() const;
    [[nodiscard]] std::uint64_t opened() const { return opened_; }
    /// No order that ranks before the best one in hand takes less, undecided folds left aside, whenever the search
    /// stopped.
    [[nodiscard]] std::int64_t least_ms() const;

private:
    struct Label {
        Rank rank;                                   // without the bound
        const CandidateStroke* candidate = nullptr;  // the last; none for the first label
        std::uint32_t parent = 0;
        std::uint32_t node = 0;
        std::uint32_t like = 0;  // equal for labels that are alike
        bool dropped = false;
        std::uint32_t depth = 0;  // steps so far
        StepCost cost;            // of the last step
    };
    struct Dominators {  // of one label: the likenesses of labels that dominate it, ascending
        std::vector<std::uint32_t> likes;
    };
    struct Node {
        BendMask formed = 0;
        MachineState machine_state = kNothingSetUp;
        Remaining rest;
        std::vector<std::uint32_t> labels;  // not dropped
    };
    using State = std::pair<BendMask, MachineState>;
    struct StateHash {
        std::size_t operator()(const State& state) const {
            return static_cast<std::size_t>(hashed(hashed(0, state.first), state.second));
        }
    };
    struct Open {
        Rank rank;  // with the bound
        std::uint32_t label = 0;
    };
    struct Later {
        const LabelSearch* search;
        bool operator()(const Open& a, const Open& b) const;
    };

    [[nodiscard]] bool tooLate(const Rank& bounded, const Label& label) const;
    [[nodiscard]] std::optional<bool> mayFinish(BendMask formed);
    [[nodiscard]] bool notWorthAsking(std::uint32_t parent, const CandidateStroke& candidate);
    [[nodiscard]] bool open(const Open& next);
    [[nodiscard]] bool expand(std::uint32_t parent, const std::vector<CandidateStroke>& listed);
    [[nodiscard]] bool follow(std::uint32_t parent, const CandidateStroke& candidate);
    [[nodiscard]] bool follow(std::uint32_t parent, const CandidateStroke& candidate, const StepCost& cost);
    [[nodiscard]] bool push(const Label& label);
    void noteUndecided(std::uint32_t parent, const CandidateStroke& candidate);
    void offer(const Label& last);
    [[nodiscard]] std::uint32_t nodeAt(BendMask formed, MachineState machine_state);
    [[nodiscard]] bool keep(std::uint32_t label);
    void addDominator(std::uint32_t label, std::uint32_t like);
    [[nodiscard]] std::uint32_t likeAfter(std::uint32_t like, const CandidateStroke& candidate);
    [[nodiscard]] bool dominates(std::uint32_t a, std::uint32_t b) const;
    [[nodiscard]] std::strong_ordering compareSequences(const Label& a, const Label& b) const;
    [[nodiscard]] bool before(std::uint32_t a, std::uint32_t b) const;
    [[nodiscard]] Rank bounded(const Label& label) const;
    [[nodiscard]] std::vector<const CandidateStroke*> candidatesOf(const Label& last) const;

    StateTable& table_;
    Bounds& bounds_;
    Reach& reach_;
    BestOrders& best_;
    std::vector<Label> labels_;
    std::vector<Node> nodes_;
    std::unordered_map<State, std::uint32_t, StateHash> node_at_;  // looked up only, never walked
    std::priority_queue<Open, std::vector<Open>, Later> open_;
    std::vector<Dominators> dominators_;  // by label
    std::map<std::pair<std::uint32_t, Likeness::value_type>, std::uint32_t> likes_;
    std::optional<Rank> opening_;  // with the bound: of the label being opened
    std::uint64_t opened_ = 0;
    std::uint64_t dead_ends_ = 0;  // opened, with no stroke that might do
    std::int64_t least_undecided_ms_;
    std::int64_t least_dead_end_ms_;
};

}  // namespace tinwright::search
