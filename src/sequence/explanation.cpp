// SPDX-License-Identifier: GPL-3.0-or-later
// Why there is no order. Facts are gathered by asking for an order that respects those in hand, and adding what in
// truth forbids its first step that is not possible, until none is left; then each fact is left out to see whether the
// others do without it.
#include <tinwright/sequence/explanation.h>

#include <algorithm>
#include <bit>

#include "bits.h"
#include "fact_oracle.h"
#include "finish.h"

namespace tinwright {

namespace search {

namespace {

using Facts = std::vector<ForbiddenStroke>;

/// Does the fact forbid this stroke in this state, as far as is known without asking how its other bends are held?
bool forbids(const ForbiddenStroke& fact, BendMask formed, const FoldMove& move) {
    return fact.hold == move.hold && (fact.bends & -fact.bends) == (move.bends & -move.bends) && fact.holdsIn(formed) &&
           fact.means(move.bends);
}

class Explainer {
public:
    Explainer(FoldOracle& oracle, BendMask formed, const ExplainOptions& options)
        : oracle_(oracle), options_(options), joins_(findJoins(oracle, formed)), strokes_(oracle) {}

    std::vector<CauseFacts> run() {
        std::vector<CauseFacts> causes;
        while (causes.size() < options_.most_causes) {
            std::optional<Facts> facts = gather();
            if (!facts) break;
            minimise(*facts);
            if (gave_up_) break;
            lifted_.insert(lifted_.end(), facts->begin(), facts->end());
            causes.push_back({std::move(*facts)});
        }
        std::stable_sort(causes.begin(), causes.end(),
                         [](const CauseFacts& a, const CauseFacts& b) { return a.facts.size() < b.facts.size(); });
        return causes;
    }

private:
    /// Facts that exclude every order, or nothing: an order is left, or a limit was reached.
    std::optional<Facts> gather() {
        Facts facts;
        single(facts);
        while (facts.size() <= options_.max_facts) {
            FactOracle only(strokes_, facts);
            FinishQuestion question(only, joins_, options_.max_states);
            const std::optional<bool> left = question.answer();
            if (!left) return std::nullopt;
            if (!*left) return facts;
            if (!learnFrom(question.order(), facts)) return std::nullopt;
        }
        return std::nullopt;
    }

    /// Folds that are impossible alone at the start, either side held: said first if they stay so.
    void single(Facts& facts) {
        eachMove(
            joins_.start, [](BendMask bends) { return std::has_single_bit(bends); },
            [&](const FoldMove& move) {
                if (!passes(joins_.start, move)) facts.push_back(factOf(joins_.start, move));
            });
    }

    /// False when the order works.
    bool learnFrom(const std::vector<FoldMove>& order, Facts& facts) {
        BendMask formed = joins_.start;
        for (const FoldMove& step : order) {
            bool stopped = false;
            eachMove(
                formed, [&](BendMask bends) { return bends == step.bends; },
                [&](const FoldMove& move) {
                    if (passes(formed, move)) return;
                    stopped = stopped || move.hold == step.hold;
                    facts.push_back(factOf(formed, move));
                });
            if (stopped) return true;
            formed |= step.bends;
        }
        return false;
    }

    /// The moves of bends that are wanted, answered: no others are asked.
    template <class Wanted, class Take>
    void eachMove(BendMask formed, Wanted wanted, Take take) {
        const std::vector<FoldMove>& listed = oracle_.listed(formed);
        for (std::size_t i = 0; i < listed.size(); ++i) {
            if (wanted(listed[i].bends)) take(oracle_.answered(formed, i));
        }
    }

    /// A fact that is seen to forbid the stroke by itself: how bends but the first are held is not known without
    /// asking.
    [[nodiscard]] ForbiddenStroke factOf(BendMask formed, const FoldMove& move) const {
        const ForbiddenStroke fact = oracle_.why(formed, move.bends, move.hold);
        return forbids(fact, formed, move) ? fact
                                           : ForbiddenStroke{move.bends, move.hold, false, fact.mask, fact.formed, 0};
    }

    [[nodiscard]] bool passes(BendMask formed, const FoldMove& move) const {
        return move.answer != FoldAnswer::kImpossible ||
               std::any_of(lifted_.begin(), lifted_.end(),
                           [&](const ForbiddenStroke& fact) { return forbids(fact, formed, move); });
    }

    /// Facts about many bends are left out first: what stays is simple.
    void minimise(Facts& facts) {
        std::stable_sort(facts.begin(), facts.end(), [](const ForbiddenStroke& a, const ForbiddenStroke& b) {
            return std::popcount(a.mask) > std::popcount(b.mask);
        });
        for (std::size_t i = 0; i < facts.size();) {
            Facts others = facts;
            others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
            FactOracle only(strokes_, others);
            const std::optional<bool> left = FinishQuestion(only, joins_, options_.max_states).answer();
            gave_up_ = gave_up_ || !left;
            left == false ? facts = std::move(others) : (++i, facts);
        }
        std::reverse(facts.begin(), facts.end());
    }

    FoldOracle& oracle_;
    const ExplainOptions& options_;
    Joins joins_;
    StrokeLists strokes_;
    Facts lifted_;
    bool gave_up_ = false;
};

}  // namespace

}  // namespace search

std::vector<CauseFacts> explainNone(FoldOracle& oracle, BendMask formed, const ExplainOptions& options) {
    return search::Explainer(oracle, formed, options).run();
}

std::optional<bool> admitsOrder(FoldOracle& oracle, BendMask formed, const std::vector<ForbiddenStroke>& facts,
                                std::uint64_t max_states) {
    const search::Joins joins = search::findJoins(oracle, formed);
    search::StrokeLists strokes(oracle);
    search::FactOracle only(strokes, facts);
    return search::FinishQuestion(only, joins, max_states).answer();
}

}  // namespace tinwright
