// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/sequence/proofs/constraint_problem.h>

#include <algorithm>
#include <bit>
#include <map>
#include <set>
#include <unordered_set>
#include <utility>

#include "states/bits.h"

namespace tinwright {

namespace {

using search::allBends;

class Compiler {
public:
    Compiler(FoldOracle& oracle, BendMask formed, const ConstraintLimits& limits) : oracle_(oracle), limits_(limits) {
        problem_.bends = oracle.bendCount();
        problem_.formed = formed;
    }

    ConstraintProblem run() {
        problem_.complete = reachStates();
        listStrokes();
        for (const BendMask state : states_) banIn(state);
        for (auto& [place, ban] : bans_) problem_.bans.push_back(std::move(ban));
        if (problem_.complete) addCosts();
        return std::move(problem_);
    }

private:
    /// All states that possible strokes reach, in the order in which they are met. False when they are too many.
    bool reachStates() {
        std::unordered_set<BendMask> seen{problem_.formed};
        states_.push_back(problem_.formed);
        for (std::size_t i = 0; i < states_.size(); ++i) {
            if (states_.size() > limits_.max_states) return false;
            for (const CandidateStroke& candidate : oracle_.candidates(states_[i])) {
                if (candidate.answer != StrokeAnswer::kPossible) continue;
                const BendMask next = states_[i] | candidate.bends;
                if (seen.insert(next).second) states_.push_back(next);
            }
        }
        return true;
    }

    void listStrokes() {
        std::set<Stroke> strokes;
        for (const BendMask state : states_) {
            for (const CandidateStroke& candidate : oracle_.candidates(state)) strokes.insert(candidate);
        }
        problem_.strokes.assign(strokes.begin(), strokes.end());
    }

    [[nodiscard]] bool possible(BendMask state, const Stroke& stroke) {
        const std::vector<CandidateStroke>& candidates = oracle_.candidates(state);
        return std::any_of(candidates.begin(), candidates.end(), [&](const CandidateStroke& candidate) {
            return candidate == stroke && candidate.answer == StrokeAnswer::kPossible;
        });
    }

    /// A ban for every stroke that the state does not allow and no ban in hand forbids.
    void banIn(BendMask state) {
        for (std::uint32_t i = 0; i < problem_.strokes.size(); ++i) {
            const Stroke& stroke = problem_.strokes[i];
            if ((stroke.bends & state) != 0 || banned(state, i) || possible(state, stroke)) continue;
            add(i, oracle_.why(state, stroke));
        }
    }

    [[nodiscard]] bool banned(BendMask state, std::uint32_t stroke) {
        return std::any_of(
            bans_of_[stroke].begin(), bans_of_[stroke].end(),
            [&](const std::pair<BendMask, BendMask>& ban) { return (state & (ban.first | ban.second)) == ban.first; });
    }

    /// The stroke that was asked for, and those whose first bend it means in any company.
    void add(std::uint32_t asked, const ForbiddenStroke& forbidden) {
        const std::pair<BendMask, BendMask> place{forbidden.formed, forbidden.mask & ~forbidden.formed};
        ConstraintProblem::Ban& ban = bans_[place];
        ban.formed = place.first;
        ban.flat = place.second;
        for (std::uint32_t i = 0; i < problem_.strokes.size(); ++i) {
            const bool first = forbidden.forbids(forbidden.formed, problem_.strokes[i]);
            if ((i != asked && !first) || std::binary_search(ban.strokes.begin(), ban.strokes.end(), i)) continue;
            ban.strokes.insert(std::lower_bound(ban.strokes.begin(), ban.strokes.end(), i), i);
            bans_of_[i].push_back(place);
        }
    }

    /// States from which the part can be finished, backwards: a step only adds bends.
    void findFinishing() {
        std::vector<BendMask> states = states_;
        std::sort(states.begin(), states.end(),
                  [](BendMask a, BendMask b) { return std::popcount(a) > std::popcount(b); });
        for (const BendMask state : states) {
            const std::vector<CandidateStroke>& candidates = oracle_.candidates(state);
            const bool finishes =
                state == allBends(problem_.bends) ||
                std::any_of(candidates.begin(), candidates.end(), [&](const CandidateStroke& candidate) {
                    return candidate.answer == StrokeAnswer::kPossible && finishing_.contains(state | candidate.bends);
                });
            if (finishes) finishing_.insert(state);
        }
    }

    void addCosts() {
        findFinishing();
        problem_.costs_complete = true;
        if (!finishing_.contains(problem_.formed)) return;
        std::map<std::pair<BendMask, MachineState>, std::uint32_t> known;
        const auto node = [&](BendMask formed, MachineState machine_state) {
            const auto [entry, is_new] =
                known.try_emplace({formed, machine_state}, static_cast<std::uint32_t>(problem_.nodes.size()));
            if (is_new) problem_.nodes.push_back({formed, machine_state});
            return entry->second;
        };
        static_cast<void>(node(problem_.formed, kNothingSetUp));
        for (std::uint32_t i = 0; i < problem_.nodes.size(); ++i) {
            if (problem_.nodes.size() > limits_.max_nodes) {
                problem_.costs_complete = false;
                problem_.nodes.clear();
                problem_.arcs.clear();
                return;
            }
            const ConstraintProblem::Node from = problem_.nodes[i];
            for (const CandidateStroke& candidate : oracle_.candidates(from.formed)) {
                if (candidate.answer != StrokeAnswer::kPossible || !finishing_.contains(from.formed | candidate.bends))
                    continue;
                for (const StepCost& cost : oracle_.costs(from.formed, from.machine_state, candidate, kNever_ms)) {
                    problem_.arcs.push_back(
                        {i, node(from.formed | candidate.bends, cost.after), strokeOf(candidate), cost});
                }
            }
        }
    }

    [[nodiscard]] std::uint32_t strokeOf(const CandidateStroke& candidate) const {
        const auto place = std::lower_bound(problem_.strokes.begin(), problem_.strokes.end(), Stroke{candidate});
        return static_cast<std::uint32_t>(place - problem_.strokes.begin());
    }

    FoldOracle& oracle_;
    const ConstraintLimits& limits_;
    ConstraintProblem problem_;
    std::vector<BendMask> states_;
    std::unordered_set<BendMask> finishing_;                                       // looked up only, never walked
    std::map<std::pair<BendMask, BendMask>, ConstraintProblem::Ban> bans_;         // by formed and flat
    std::map<std::uint32_t, std::vector<std::pair<BendMask, BendMask>>> bans_of_;  // by stroke
};

}  // namespace

ConstraintProblem compileConstraints(FoldOracle& oracle, BendMask formed, const ConstraintLimits& limits) {
    return Compiler(oracle, formed, limits).run();
}

}  // namespace tinwright
