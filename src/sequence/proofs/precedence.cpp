// SPDX-License-Identifier: GPL-3.0-or-later
// Which bends must come before which: for two bends an order is looked for that folds the second before the first.
#include <algorithm>

#include <tinwright/sequence/proofs/explanation.h>

#include "proofs/finish.h"
#include "proofs/relaxed_oracle.h"
#include "states/bits.h"

namespace tinwright {

namespace search {

namespace {

class Asking {
public:
    Asking(FoldOracle& oracle, BendMask formed, const PrecedenceOptions& options)
        : oracle_(oracle),
          options_(options),
          co_foldable_(findCoFoldable(oracle, formed)),
          strokes_(oracle),
          left_(options.max_states_in_all),
          seen_later_(oracle.bendCount(), 0),
          before_(oracle.bendCount(), 0) {}

    Precedences run(const std::vector<std::vector<BendMask>>& known) {
        for (const std::vector<BendMask>& order : known) witness(order);
        Precedences result;
        forEachBend(co_foldable_.free(), [&](std::size_t then) {
            forEachBend(co_foldable_.free(), [&](std::size_t first) {
                if (first != then && (seen_later_[first] & bit(idAt<BendId>(then))) == 0)
                    ask(idAt<BendId>(first), idAt<BendId>(then), result);
            });
        });
        dropImplied(result.forced);
        return result;
    }

private:
    /// What an order shows: every bend may come after those before it.
    void witness(const std::vector<BendMask>& order) {
        BendMask formed = co_foldable_.start;
        for (const BendMask bends : order) {
            forEachBend(bends, [&](std::size_t b) { seen_later_[b] |= formed; });
            formed |= bends;
        }
    }

    void ask(BendId first, BendId then, Precedences& result) {
        LateOracle late(oracle_, first, then);
        FinishQuestion question(late, co_foldable_, std::min(options_.max_states, left_));
        const std::optional<bool> other_way = question.answer();
        left_ -= std::min(left_, question.statesOpened());
        if (!other_way) {
            result.all_pairs = false;
        } else if (*other_way) {
            std::vector<BendMask> order;
            for (const CandidateStroke& candidate : question.order()) order.push_back(candidate.bends);
            witness(order);
        } else {
            before_[then.index()] |= bit(first);
            result.forced.push_back({first, then, reasonOf(late, question, first, then)});
        }
    }

    std::vector<ForbiddenStroke> reasonOf(const LateOracle& late, const FinishQuestion& question, BendId first,
                                          BendId then) {
        std::optional<std::vector<ForbiddenStroke>> forbidden_strokes = question.forbiddenStrokes();
        if (!forbidden_strokes) return {};
        std::erase_if(*forbidden_strokes, [&](const ForbiddenStroke& forbidden) { return late.isWish(forbidden); });
        for (std::size_t i = 0; i < forbidden_strokes->size();) {
            std::vector<ForbiddenStroke> others = *forbidden_strokes;
            others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
            RelaxedOracle only(strokes_, others);
            LateOracle wished(only, first, then);
            if (FinishQuestion(wished, co_foldable_, options_.max_states).answer() == false) {
                forbidden_strokes = std::move(others);
            } else {
                ++i;
            }
        }
        return std::move(*forbidden_strokes);
    }

    void dropImplied(std::vector<Precedence>& forced) const {
        std::erase_if(forced, [&](const Precedence& one) {
            BendMask between = 0;
            forEachBend(before_[one.then.index()] & ~bit(one.first), [&](std::size_t middle) {
                const bool together =
                    contains(before_[middle], one.then) || contains(before_[one.first.index()], idAt<BendId>(middle));
                if (!together) between |= before_[middle];
            });
            return contains(between, one.first);
        });
        std::sort(forced.begin(), forced.end(), [](const Precedence& a, const Precedence& b) {
            return std::pair(a.first.value, a.then.value) < std::pair(b.first.value, b.then.value);
        });
    }

    FoldOracle& oracle_;
    const PrecedenceOptions& options_;
    CoFoldable co_foldable_;
    StrokeLists strokes_;
    std::uint64_t left_;
    std::vector<BendMask> seen_later_;  // by bend: those that some order folds before it
    std::vector<BendMask> before_;      // by bend: those that must be folded before it
};

}  // namespace

}  // namespace search

Precedences forcedPrecedences(FoldOracle& oracle, BendMask formed, const std::vector<std::vector<BendMask>>& known,
                              const PrecedenceOptions& options) {
    return search::Asking(oracle, formed, options).run(known);
}

}  // namespace tinwright
