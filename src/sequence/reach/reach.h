// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <unordered_map>

#include "reach/backward_reach.h"
#include "reach/no_goods.h"
#include "states/state_table.h"

namespace tinwright::search {

/// Whether the part can be finished from a state, by folds that are possible, or by undecided ones as well. Searches
/// forwards in depth and remembers, from dead ends as generally as it can (NoGoods); when that runs into many of which
/// nothing general is learned, it works backwards for as long.
class Reach {
public:
    enum class With { kPossible, kUndecided };

    Reach(StateTable& table, BackwardReach& backward, With with);

    /// Nothing when the budget ran out first.
    [[nodiscard]] std::optional<bool> finishes(BendMask formed);
    /// What is known already; asks nothing.
    [[nodiscard]] std::optional<bool> known(BendMask formed) const;
    [[nodiscard]] const NoGoods& noGoods() const { return no_goods_; }

private:
    [[nodiscard]] bool counts(const CandidateStroke& candidate) const;
    bool settle(BendMask formed, bool finishes);

    StateTable& table_;
    BackwardReach& backward_;
    With with_;
    NoGoods no_goods_;
    std::uint64_t blunt_dead_ends_ = 0;  // of which nothing general was learned
    std::unordered_map<BendMask, bool> finishes_;
};

}  // namespace tinwright::search
