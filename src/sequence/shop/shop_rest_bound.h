// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <tuple>
#include <utility>
#include <vector>

#include <tinwright/fold/engine/fold_engine.h>
#include <tinwright/sequence/states/oracle.h>

#include "shop/machine_states.h"

namespace tinwright {

/// What the bound asks, and whom.
struct BoundQuestions {
    const Part& part;
    const Times& times;
    FoldEngine& engine;
    const MachineStates& states;
};

/// What is left to do on a leaf brake beyond folding and gauging: turns, flips, bars to handle, part and bars that do
/// not simply come out.
///
/// A state is taken for the set E of families whose bends are all formed and the set of those of which some are. Steps
/// that complete a family count. One forms all bends of a family, or some of them as the last; then there was another
/// step before, if the family was untouched. FoldEngine::least says what folding a bend takes at least in every state
/// in which E is formed, so also in this one: ways in and out, and so many bars no wider than so much. The least over
/// all orders of families is found backwards over the sets E, with how the part was left: steps that count for nothing
/// lie between, but by way of others no turn becomes less.
///
/// Bars: what stands has some of the bars that a step needs, and the others have to be put up, each by itself. An
/// order's bars take at least what its dearest step takes, from what stands now: changes on the way handle no fewer
/// pieces than it takes from their start to any set-up. So the least time without bars is found among the steps that
/// take up to so many pieces, and their time added; the least of these sums is the bound.
///
/// Every part of it is the least over all that may come, from one state to the next, so a step takes at least what its
/// bound falls by. When there are many families, those whose steps take most are looked at, and the others count for
/// nothing.
class ShopRestBound final : public RestBound {
public:
    ShopRestBound(const BoundQuestions& asked, const std::vector<StepFamily>& families, BendMask start);

    [[nodiscard]] RestLowerBound least(BendMask formed, MachineState machine_state) override;
    [[nodiscard]] RestLowerBound leastBy(BendMask formed, MachineState machine_state,
                                         const CandidateStroke& candidate) override;

private:
    using Done = std::uint32_t;            // families, by bit
    using Node = std::uint32_t;            // a lie of the part
    static constexpr int kMostPieces = 8;  // told apart in what is handled

    // A step that completes a family.
    struct Option {
        std::uint32_t family = 0;
        bool whole = true;        // forms all of its bends
        std::vector<Node> nodes;  // how the part may lie for it
        std::int64_t extra_ms = 0;
        int pieces = 1;
        Micron widest_um = 0;
        friend bool operator==(const Option&, const Option&) = default;
    };
    struct Fold {  // a bend held one way
        BendId bend;
        Side hold = Side::kParent;
        BendMask path = 0;                            // bends that decide how the part lies for it
        std::vector<std::pair<BendMask, Node>> lies;  // by which of them are formed
    };
    // With these bars standing and these families begun: by completed families the least time, by pieces handled at
    // most and lie.
    struct Table {
        std::vector<Micron> machine_state;
        Done touched = 0;
        std::vector<std::vector<std::int64_t>> times_ms;
    };

    [[nodiscard]] RestLowerBound restOf(BendMask formed, MachineState machine_state, const Orientation* left);
    void addFold(BendId bend, Side hold);
    [[nodiscard]] bool liesAgree(BendMask family) const;
    void chooseFamilies(const std::vector<StepFamily>& families);
    [[nodiscard]] std::int64_t interest(BendMask family, BendMask others);
    [[nodiscard]] Done doneIn(BendMask formed) const;
    [[nodiscard]] Done touchedIn(BendMask formed) const;
    [[nodiscard]] BendMask formedBy(Done done) const;
    [[nodiscard]] const std::vector<Option>& options(Done done);
    void addOptions(Done done, std::uint32_t family, std::vector<Option>& options);
    /// How a part lies for a bend, held so.
    [[nodiscard]] Orientation orientationFor(BendMask formed, BendId bend, Side hold) const;
    /// Turning and flipping from one to the other. No less by way of a third.
    [[nodiscard]] std::int64_t handlingTime_ms(const Orientation& from, const Orientation& to) const;
    [[nodiscard]] std::int64_t stepTime_ms() const { return asked_.times.fold_ms + asked_.times.gauge_ms; }
    [[nodiscard]] Node nodeOf(BendMask formed, const CandidateStroke& candidate) const;
    [[nodiscard]] std::vector<Node> nodesOf(const Fold& fold, BendMask formed) const;
    [[nodiscard]] Table& table(MachineState machine_state, Done touched);
    [[nodiscard]] const std::vector<std::int64_t>& timesFrom(Table& table, Done done);
    [[nodiscard]] std::int64_t leastFrom(Table& table, Done done, const Orientation* left);
    [[nodiscard]] std::vector<std::int64_t> through(Table& table, Done done, const Orientation* left);
    [[nodiscard]] std::int64_t piecesFrom(Done done, Done touched);
    [[nodiscard]] int handled(const Table& table, const Option& option) const;
    [[nodiscard]] bool mayBe(const Option& option, Done touched) const {
        return !option.whole || (touched >> option.family & 1U) == 0;
    }

    BoundQuestions asked_;
    BendMask start_;
    std::vector<BendMask> families_;
    std::vector<bool> one_step_;  // by family
    Done all_ = 0;
    std::vector<Fold> folds_;
    std::vector<Orientation> nodes_;  // empty when turns are not known
    std::map<Orientation, Node> node_of_;
    bool turns_known_ = true;                                  // else the part may lie anyhow
    std::vector<std::optional<std::vector<Option>>> options_;  // by completed families
    std::map<std::pair<std::vector<Micron>, Done>, Table> tables_;
    std::map<std::pair<MachineState, Done>, Table*> table_of_;
    std::size_t bytes_ = 0;  // of their times
    std::map<std::tuple<const Table*, Done, Orientation>, std::int64_t> least_from_;
    std::map<std::pair<Done, Done>, std::int64_t> pieces_from_;
};

}  // namespace tinwright
