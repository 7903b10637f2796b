// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <vector>

#include <tinwright/base/forbidden_stroke.h>
#include <tinwright/base/ids.h>

namespace tinwright {

/// What stands on the machine and how the part was last held: an index that only the oracle can read.
using Standing = std::uint32_t;
inline constexpr Standing kNothingStanding = 0;

enum class FoldAnswer : std::uint8_t { kPossible, kImpossible, kUndecided };

/// One way to make one fold in one state.
struct FoldMove {
    BendMask bends = 0;            ///< what it forms; never empty, never formed before
    std::uint8_t hold = 0;         ///< which side is held; moves are listed in ascending (bends, hold)
    bool whole_group = false;      ///< `bends` is all of the bends that lie on this line in this state
    FoldAnswer answer = FoldAnswer::kImpossible;
    std::uint32_t handle = 0;      ///< the oracle's own
};

/// What taking a move costs, coming from `before`.
struct StepCost {
    std::int64_t time_ms = 0;      ///< >= 0: setting up, turning, flipping, gauging, folding
    std::int32_t pieces = 0;       ///< bars standing for it
    bool tight = false;            ///< clearance is under what the shop calls comfortable
    std::int64_t clearance_um = 0; ///< worst clearance of the fold
    Standing after = kNothingStanding;
};

/// Answers for single states; the search sees nothing else of the part or the machine. Whether a fold is
/// possible depends on `formed` alone; `before` changes only what it costs.
class FoldOracle {
public:
    virtual ~FoldOracle() = default;
    [[nodiscard]] virtual std::size_t bendCount() const = 0;
    /// All moves of a state, possible or not, in ascending (bends, hold). The reference stays valid for good.
    [[nodiscard]] virtual const std::vector<FoldMove>& moves(BendMask formed) = 0;
    /// The strokes that `moves` lists, in its order, with `bends`, `hold` and `whole_group` alone.
    [[nodiscard]] virtual std::vector<FoldMove> strokes(BendMask formed) { return moves(formed); }
    /// The lines of a state: each a set of unformed bends that lie on one line there; they do not overlap and
    /// together are all unformed bends. Needs no collision test.
    [[nodiscard]] virtual std::vector<BendMask> lines(BendMask formed) = 0;
    [[nodiscard]] virtual StepCost cost(BendMask formed, Standing before, const FoldMove& move) = 0;
    /// A lower bound of the time of any step that forms `bend` in any state.
    [[nodiscard]] virtual std::int64_t leastTime_ms(BendId bend) const = 0;
    /// A lower bound of the pieces standing for any step that forms `bend` in any state.
    [[nodiscard]] virtual std::int32_t leastPieces(BendId) const { return 0; }
    /// True only if no two bends lie on one line in any state.
    [[nodiscard]] virtual bool linesNeverJoin() const { return false; }
    /// Bends that may lie on one line with `bend` in some state, itself included. Too many is safe, too few is not.
    [[nodiscard]] virtual BendMask mayJoin(BendId bend) const { return linesNeverJoin() ? bit(bend) : ~BendMask{0}; }
    /// Bends of one kind are alike to the eye: flanges of the same shape. Orders that differ in nothing but swaps among them are told once.
    [[nodiscard]] virtual std::uint32_t kind(BendId bend) const { return bend.value; }
    /// Why bends cannot be folded by one stroke in a state, held so: a forbidden stroke that holds in the state and means theirs. They are an
    /// impossible move of the state, or none at all. The answer may say no more than that it is so in this very state.
    [[nodiscard]] virtual ForbiddenStroke why(BendMask formed, BendMask bends, std::uint8_t hold);
};

}  // namespace tinwright
