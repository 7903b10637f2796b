// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "states/state_table.h"

namespace tinwright::search {

/// A partial state from which the part cannot be finished: some of its bends are unformed, and nothing that may still
/// be folded forms one of them or leads out of it but into another no-good.
struct NoGood {
    BendMask mask = 0;
    BendMask formed = 0;                           ///< those of `mask` that are formed; at least one is not
    std::vector<std::uint32_t> forbidden_strokes;  ///< forbidden strokes that it rests on, ascending
    std::vector<std::uint32_t> no_goods;           ///< other no-goods that it rests on, all older, ascending

    [[nodiscard]] bool holds(BendMask state) const { return (state & mask) == formed; }
};

/// Learns from states without a way to the finished part. What is learned is general: a state is dead because certain
/// few bends are formed or not, and every other state that agrees on them is dead without being looked at.
///
/// Why a no-good R is one. Let a state agree with R. Any step either forms no bend that R wants unformed, and then the
/// state after it agrees with R as well (what is formed stays so); or it forms one. For each such step that may ever
/// exist R holds either a forbidden stroke whose bends R settles, so that the step is impossible in every state of R,
/// or an older no-good that catches every state of R after this step. So no step leads from R to the finished part,
/// which is not in R.
class NoGoods {
public:
    enum class Undecided { kPossible, kImpossible };  ///< what undecided folds are taken for

    NoGoods(StateTable& table, Undecided undecided);

    /// The first no-good that the state is in, if any.
    [[nodiscard]] std::optional<std::uint32_t> caught(BendMask formed) const;
    /// Learns a no-good that the state is in. All its steps lead into known no-goods. False when nothing more
    /// general was found than the state itself.
    bool learn(BendMask formed);
    /// Enters a state that is known to be dead from elsewhere; it rests on nothing.
    void addState(BendMask formed);

    [[nodiscard]] const std::vector<NoGood>& noGoods() const { return no_goods_; }
    [[nodiscard]] const std::vector<ForbiddenStroke>& forbiddenStrokes() const { return forbidden_; }
    /// The forbidden strokes that a no-good and all that it rests on rest on, ascending.
    [[nodiscard]] std::vector<std::uint32_t> forbiddenUnder(std::uint32_t no_good) const;
    /// False when it rests on a state that was entered by addState.
    [[nodiscard]] bool isProven(std::uint32_t no_good) const;

private:
    [[nodiscard]] std::vector<std::uint32_t> noGoodsUnder(std::uint32_t no_good) const;
    struct Closure;
    [[nodiscard]] std::optional<Closure> closure(BendMask formed, std::size_t seed, int fewer_than);
    [[nodiscard]] bool closeBend(Closure& closure, std::size_t bend);
    void closeStroke(Closure& closure, const Stroke& stroke);
    [[nodiscard]] bool takeNoGood(Closure& closure, BendMask bends);
    [[nodiscard]] bool takeForbidden(Closure& closure, const Stroke& stroke);
    [[nodiscard]] std::uint32_t forbiddenFor(BendMask formed, const Stroke& stroke);
    [[nodiscard]] bool mayPass(const CandidateStroke& candidate) const;
    [[nodiscard]] std::optional<std::size_t> indexOf(BendMask formed, const Stroke& stroke);
    void add(NoGood no_good);

    StateTable& table_;
    Undecided undecided_;
    std::vector<NoGood> no_goods_;
    std::vector<std::uint32_t> current_;  // no-goods that no other one includes
    std::vector<ForbiddenStroke> forbidden_;
    std::vector<std::vector<std::uint32_t>> forbidden_by_bend_;  // by bend and hold: those that mean any company
};

}  // namespace tinwright::search
