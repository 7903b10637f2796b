// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <memory>
#include <vector>

#include <tinwright/base/forbidden_stroke.h>
#include <tinwright/base/ids.h>
#include <tinwright/brake/plan/trouble.h>

namespace tinwright {

/// What stands on the machine and how the part was last held: an index that only the oracle can read.
using MachineState = std::uint32_t;
inline constexpr MachineState kNothingSetUp = 0;

/// A stroke of a state, with its answer once it is asked for. Candidates are listed in ascending order; what they form
/// is never empty, and never formed before.
struct CandidateStroke : Stroke {
    bool whole_line = false;  ///< `bends` is all of the bends that lie on this line in this state
    StrokeAnswer answer = StrokeAnswer::kImpossible;
    std::uint32_t handle = 0;  ///< the oracle's own
};

/// What taking a stroke costs, coming from `before`.
struct StepCost {
    std::int64_t time_ms = 0;       ///< >= 0: setting up, turning, flipping, gauging, folding
    std::int32_t pieces = 0;        ///< bars standing for it
    bool tight = false;             ///< clearance is under what the shop calls comfortable
    std::int64_t clearance_um = 0;  ///< worst clearance of the fold
    MachineState after = kNothingSetUp;
    std::int32_t larger_behind = 0;  ///< 1 where the larger side lies at the back gauge, else 0
    Spoils spoils = {};
};

/// A lower bound of what the steps to come take beyond the least that each takes by itself (timeLowerBound_ms,
/// piecesLowerBound).
struct RestLowerBound {
    std::int64_t time_ms = 0;  ///< kNever_ms when nothing leads to the finished part
    std::int64_t pieces = 0;
};
inline constexpr std::int64_t kNever_ms = std::int64_t{1} << 60;

/// Bends of which no step ever mixes some with others.
struct StepFamily {
    BendMask bends = 0;
    bool one_step = true;  ///< what each step takes by itself is counted once for all of them, as if one step formed
                           ///< them
};

/// Bounds what is left to do.
class RestBound {
public:
    virtual ~RestBound() = default;
    /// From a state with `standing` on the machine. Consistent: no step takes less than the bound falls by. Undecided
    /// folds count as possible ones.
    [[nodiscard]] virtual RestLowerBound least(BendMask formed, MachineState machine_state) = 0;
    /// What a stroke and the steps after it take at least, with what stands before the stroke: no more than the stroke
    /// and the bound after it.
    [[nodiscard]] virtual RestLowerBound leastBy(BendMask formed, MachineState machine_state,
                                                 const CandidateStroke& candidate) = 0;
};

/// Answers for single states; the search sees nothing else of the part or the machine. Whether a fold is
/// possible depends on `formed` alone; `before` changes only what it costs.
class FoldOracle {
public:
    virtual ~FoldOracle() = default;
    [[nodiscard]] virtual std::size_t bendCount() const = 0;
    /// All strokes of a state, possible or not, in ascending (bends, hold). The reference stays valid for good.
    [[nodiscard]] virtual const std::vector<CandidateStroke>& candidates(BendMask formed) = 0;
    /// The same list, in which some strokes may not be answered yet: asking is what costs. Of those `answer` and
    /// `handle` mean nothing until `answered` is called.
    [[nodiscard]] virtual const std::vector<CandidateStroke>& listed(BendMask formed) { return candidates(formed); }
    /// One of them with its answer.
    [[nodiscard]] virtual const CandidateStroke& answered(BendMask formed, std::size_t index) {
        return candidates(formed)[index];
    }
    /// The same, unless it takes long: then false, and it is not answered yet.
    [[nodiscard]] virtual bool answersQuickly(BendMask formed, std::size_t index) {
        static_cast<void>(answered(formed, index));
        return true;
    }
    /// Whether asking costs nothing more.
    [[nodiscard]] virtual bool isAnswered(BendMask /*formed*/, std::size_t /*index*/) { return true; }
    /// The strokes that `strokes` lists, in its order, with `bends`, `hold` and `whole_line` alone.
    [[nodiscard]] virtual std::vector<CandidateStroke> strokes(BendMask formed) { return candidates(formed); }
    /// The lines of a state: each a set of unformed bends that lie on one line there; they do not overlap and
    /// together are all unformed bends. Needs no collision test.
    [[nodiscard]] virtual std::vector<BendMask> lines(BendMask formed) = 0;
    [[nodiscard]] virtual StepCost cost(BendMask formed, MachineState before, const CandidateStroke& candidate) = 0;
    /// All ways to make the stroke that are worth a look, each with another set-up; the first is that of `cost`. Those
    /// that take more than `most_ms` may be left out.
    [[nodiscard]] virtual std::vector<StepCost> costs(BendMask formed, MachineState before,
                                                      const CandidateStroke& candidate, std::int64_t /*most_ms*/) {
        return {cost(formed, before, candidate)};
    }
    /// From here on what stands after these (of many the first) may also be set up for any other stroke that it does
    /// for. False when that adds nothing.
    virtual bool share(const std::vector<MachineState>& /*after*/) { return false; }
    /// Equal for the same set-up, however the part was left.
    [[nodiscard]] virtual std::uint32_t setUp(MachineState machine_state) const { return machine_state; }
    /// Memory that the oracle keeps, roughly: it never becomes less.
    [[nodiscard]] virtual std::uint64_t heldBytes() const { return 0; }
    /// Nothing when the oracle knows none. It may ask the oracle, and must not outlive it.
    [[nodiscard]] virtual std::unique_ptr<RestBound> restBound(const std::vector<StepFamily>& /*families*/,
                                                               BendMask /*start*/) {
        return nullptr;
    }
    /// A lower bound of the time of any step that forms `bend` in any state.
    [[nodiscard]] virtual std::int64_t timeLowerBound_ms(BendId bend) const = 0;
    /// A lower bound of the pieces standing for any step that forms `bend` in any state.
    [[nodiscard]] virtual std::int32_t piecesLowerBound(BendId) const { return 0; }
    /// The least that any step in any state spoils with a bend: the sum over the bends of a step is no more than the
    /// step spoils. Of a stroke the same with what is known of the sides that it holds.
    [[nodiscard]] virtual Spoils spoilsLowerBound(BendId) { return {}; }
    [[nodiscard]] virtual Spoils spoilsLowerBound(const Stroke& stroke);
    /// True only if no two bends lie on one line in any state.
    [[nodiscard]] virtual bool linesNeverCoincide() const { return false; }
    /// Bends that may lie on one line with `bend` in some state, itself included. Too many is safe, too few is not.
    [[nodiscard]] virtual BendMask mayShareStroke(BendId bend) const {
        return linesNeverCoincide() ? bit(bend) : ~BendMask{0};
    }
    /// Bends of one kind are alike to the eye: flanges of the same shape. Orders that differ in nothing but swaps among
    /// them are told once.
    [[nodiscard]] virtual std::uint32_t kind(BendId bend) const { return bend.value; }
    /// Why bends cannot be folded by one stroke in a state, held so: a forbidden stroke that holds in the state and
    /// means theirs. They are an impossible stroke of the state, or none at all. The answer may say no more than that
    /// it is so in this very state.
    [[nodiscard]] virtual ForbiddenStroke why(BendMask formed, const Stroke& stroke);
};

}  // namespace tinwright
