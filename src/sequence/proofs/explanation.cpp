// SPDX-License-Identifier: GPL-3.0-or-later
// Why there is no order. Facts are gathered by asking for an order that respects those in hand, and adding what in
// truth forbids its first step that is not possible, until none is left; then each is left out to see whether the
// others do without it.
#include <tinwright/sequence/proofs/explanation.h>

#include <algorithm>
#include <bit>

#include "proofs/finish.h"
#include "proofs/relaxed_oracle.h"
#include "states/bits.h"

namespace tinwright {

namespace search {

namespace {

using ForbiddenStrokes = std::vector<ForbiddenStroke>;

class Explainer {
public:
    Explainer(FoldOracle& oracle, BendMask formed, const ExplainOptions& options)
        : oracle_(oracle), options_(options), co_foldable_(findCoFoldable(oracle, formed)), strokes_(oracle) {}

    std::vector<ConflictCause> run() {
        std::vector<ConflictCause> causes;
        while (causes.size() < options_.most_causes) {
            std::optional<ForbiddenStrokes> forbidden_strokes = gather();
            if (!forbidden_strokes || forbidden_strokes->empty())
                break;  // empty: the strokes that are listed leave none
            minimise(*forbidden_strokes);
            if (gave_up_) break;
            lifted_.insert(lifted_.end(), forbidden_strokes->begin(), forbidden_strokes->end());
            causes.push_back({std::move(*forbidden_strokes)});
        }
        std::stable_sort(causes.begin(), causes.end(), [](const ConflictCause& a, const ConflictCause& b) {
            return a.forbidden_strokes.size() < b.forbidden_strokes.size();
        });
        return causes;
    }

private:
    /// Facts that exclude every order, or nothing: an order is left, or a limit was reached.
    std::optional<ForbiddenStrokes> gather() {
        ForbiddenStrokes forbidden_strokes;
        single(forbidden_strokes);
        while (forbidden_strokes.size() <= options_.max_forbidden) {
            RelaxedOracle only(strokes_, forbidden_strokes);
            FinishQuestion question(only, co_foldable_, options_.max_states);
            const std::optional<bool> left = question.answer();
            if (!left) return std::nullopt;
            if (!*left) return forbidden_strokes;
            if (!learnFrom(question.order(), forbidden_strokes)) return std::nullopt;
        }
        return std::nullopt;
    }

    /// Folds that are impossible alone at the start, either side held: said first if they stay so.
    void single(ForbiddenStrokes& forbidden_strokes) {
        eachStroke(
            co_foldable_.start, [](BendMask bends) { return std::has_single_bit(bends); },
            [&](const CandidateStroke& candidate) {
                if (!passes(co_foldable_.start, candidate))
                    forbidden_strokes.push_back(forbiddenOf(co_foldable_.start, candidate));
            });
    }

    /// False when the order works.
    bool learnFrom(const std::vector<CandidateStroke>& order, ForbiddenStrokes& forbidden_strokes) {
        BendMask formed = co_foldable_.start;
        for (const CandidateStroke& step : order) {
            bool stopped = false;
            eachStroke(
                formed, [&](BendMask bends) { return bends == step.bends; },
                [&](const CandidateStroke& candidate) {
                    if (passes(formed, candidate)) return;
                    stopped = stopped || candidate.hold == step.hold;
                    forbidden_strokes.push_back(forbiddenOf(formed, candidate));
                });
            if (stopped) return true;
            formed |= step.bends;
        }
        return false;
    }

    /// The strokes of bends that are wanted, answered: no others are asked.
    template <class Wanted, class Take>
    void eachStroke(BendMask formed, Wanted wanted, Take take) {
        const std::vector<CandidateStroke>& listed = oracle_.listed(formed);
        for (std::size_t i = 0; i < listed.size(); ++i) {
            if (wanted(listed[i].bends)) take(oracle_.answered(formed, i));
        }
    }

    /// One that is seen to forbid the stroke by itself: how bends but the first are held is not known without
    /// asking.
    [[nodiscard]] ForbiddenStroke forbiddenOf(BendMask formed, const CandidateStroke& candidate) const {
        const ForbiddenStroke forbidden = oracle_.why(formed, candidate);
        return forbidden.forbids(formed, candidate)
                   ? forbidden
                   : ForbiddenStroke{Stroke{candidate}, false, forbidden.mask, forbidden.formed, 0};
    }

    [[nodiscard]] bool passes(BendMask formed, const CandidateStroke& candidate) const {
        return candidate.answer != StrokeAnswer::kImpossible ||
               std::any_of(lifted_.begin(), lifted_.end(),
                           [&](const ForbiddenStroke& forbidden) { return forbidden.forbids(formed, candidate); });
    }

    /// Facts about many bends are left out first: what stays is simple.
    void minimise(ForbiddenStrokes& forbidden_strokes) {
        std::stable_sort(forbidden_strokes.begin(), forbidden_strokes.end(),
                         [](const ForbiddenStroke& a, const ForbiddenStroke& b) {
                             return std::popcount(a.mask) > std::popcount(b.mask);
                         });
        for (std::size_t i = 0; i < forbidden_strokes.size();) {
            ForbiddenStrokes others = forbidden_strokes;
            others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
            RelaxedOracle only(strokes_, others);
            const std::optional<bool> left = FinishQuestion(only, co_foldable_, options_.max_states).answer();
            gave_up_ = gave_up_ || !left;
            left == false ? forbidden_strokes = std::move(others) : (++i, forbidden_strokes);
        }
        std::reverse(forbidden_strokes.begin(), forbidden_strokes.end());
    }

    FoldOracle& oracle_;
    const ExplainOptions& options_;
    CoFoldable co_foldable_;
    StrokeLists strokes_;
    ForbiddenStrokes lifted_;
    bool gave_up_ = false;
};

}  // namespace

}  // namespace search

std::vector<ConflictCause> explainNone(FoldOracle& oracle, BendMask formed, const ExplainOptions& options) {
    return search::Explainer(oracle, formed, options).run();
}

std::optional<bool> admitsOrder(FoldOracle& oracle, BendMask formed,
                                const std::vector<ForbiddenStroke>& forbidden_strokes, std::uint64_t max_states) {
    const search::CoFoldable co_foldable = search::findCoFoldable(oracle, formed);
    search::StrokeLists strokes(oracle);
    search::RelaxedOracle only(strokes, forbidden_strokes);
    return search::FinishQuestion(only, co_foldable, max_states).answer();
}

}  // namespace tinwright
