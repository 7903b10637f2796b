// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <unordered_map>

#include "states/state_table.h"

namespace tinwright::search {

/// Whether the part can be finished from a state: not even with the undecided folds, only with some of them, or so.
enum class Finish : std::uint8_t { kNo, kMaybe, kYes };

/// Works backwards from the finished part, level by level (a level: all states with the same number of unformed
/// bends). Constraints bite last, so a few levels often settle what a forward search would grind through.
class BackwardReach {
public:
    explicit BackwardReach(StateTable& table);

    /// Known without asking anything, or nothing.
    [[nodiscard]] std::optional<Finish> known(BendMask formed) const;
    /// Works out further levels while the next one has at most `states` states.
    void advance(std::uint64_t states);

private:
    [[nodiscard]] bool nextLayer();
    [[nodiscard]] bool settle(BendMask formed);
    [[nodiscard]] bool hasHopefulSuccessor(BendMask formed) const;

    StateTable& table_;
    int level_ = 0;                                // done: all states with at most so many unformed bends
    int barren_ = 0;                               // so many of the last levels have no state that finishes
    bool closed_ = false;                          // no state above `level_` finishes
    bool hopeful_ = false;                         // the level being worked out has a state that finishes
    std::unordered_map<BendMask, Finish> finish_;  // those that are not kNo
};

}  // namespace tinwright::search
