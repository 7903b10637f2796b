// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <memory>
#include <vector>

#include <tinwright/sequence/states/oracle.h>

#include "states/co_foldable.h"

namespace tinwright::search {

/// A lower bound of the sum, over all steps still to come, of a quantity of which a step takes at least the largest
/// weight of its bends (time, pieces).
///
/// Bends fall into families that are never joined by a step, however the states go. Within a family, of the bends
/// U still unformed:
///   (a) the largest weight of U: some step forms that bend;
///   (b) the sum of weight / largest step that can hold the bend: a step S takes >= max weight >= mean weight of S
///       >= sum over S of weight / (largest step of that bend), since no bend's largest step is under |S|.
/// The bound is the sum over families of max(a, b). It is consistent, i.e. bound(U) <= taken(S) + bound(U \ S): a step
/// lies in one family; (a) falls only if S holds the bend that sets it, and then by at most that weight <= taken(S);
/// (b) falls by at most taken(S), as shown; so the max falls by at most taken(S). Rounding each share down keeps (b).
/// Nothing is left when U is empty, so it is admissible as well.
class SharedSum {
public:
    SharedSum(std::vector<std::int64_t> weights, const CoFoldable& co_foldable);
    [[nodiscard]] std::int64_t of(BendMask unformed) const;
    /// What one step that forms these bends takes at least.
    [[nodiscard]] std::int64_t ofStep(BendMask bends) const;
    [[nodiscard]] const std::vector<BendMask>& families() const { return families_; }

private:
    std::vector<BendMask> families_;
    std::vector<std::int64_t> weights_;
    std::vector<std::int64_t> shares_;
};

/// What the remaining steps take and spoil at least. What they spoil is summed over their bends (spoilsLowerBound): a
/// step spoils no less than the sum falls by.
struct Remaining {
    Spoils spoils;
    std::int64_t time_ms = 0;
    std::int64_t pieces = 0;
    bool finishes = true;  ///< false: no steps lead to the finished part, undecided ones neither
};

/// The sum of what each step takes by itself, and, from when it is sharpened, what the oracle knows beyond that.
class Bounds {
public:
    Bounds(FoldOracle& oracle, const CoFoldable& co_foldable);

    [[nodiscard]] Remaining of(BendMask formed, MachineState machine_state) const;
    /// What a stroke and the steps after it take at least.
    [[nodiscard]] Remaining by(BendMask formed, MachineState machine_state, const CandidateStroke& candidate) const;
    /// What each step takes by itself, of all steps and of one.
    [[nodiscard]] std::int64_t quickTime_ms(BendMask unformed) const { return time_ms_.of(unformed); }
    [[nodiscard]] std::int64_t stepTime_ms(BendMask bends) const { return time_ms_.ofStep(bends); }
    [[nodiscard]] Spoils quickSpoils(BendMask unformed) const;
    [[nodiscard]] std::vector<StepFamily> families() const;
    /// Asks the oracle for its bound of what is left. False when it has none, or did so before.
    bool sharpen();
    [[nodiscard]] bool isSharp() const { return rest_ != nullptr; }

private:
    [[nodiscard]] Remaining quick(BendMask formed) const;

    FoldOracle& oracle_;
    const CoFoldable& co_foldable_;
    SharedSum time_ms_;
    SharedSum pieces_;
    std::unique_ptr<RestBound> rest_;
};

}  // namespace tinwright::search
