// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include <tinwright/base/forbidden_stroke.h>
#include <tinwright/sequence/states/oracle.h>

namespace tinwright {

/// Forbidden strokes that together exclude every order, none of which can be left out: without any one of them
/// the others admit an order. Minimal, not necessarily the smallest.
struct ConflictCause {
    std::vector<ForbiddenStroke> forbidden_strokes;
};

struct ExplainOptions {
    std::size_t most_causes = 4;
    std::uint64_t max_states = 20'000;  ///< states looked at for each question of whether an order is left
    std::size_t max_forbidden = 400;    ///< gathered for one cause before it is given up
};

/// Why no order of possible folds leads from `formed` to all bends formed: causes independent of one another, those of
/// fewest facts first; each is still there when all that the ones before it name is lifted. Undecided folds count as
/// possible. Empty when there is an order, or a limit was reached.
[[nodiscard]] std::vector<ConflictCause> explainNone(FoldOracle& oracle, BendMask formed,
                                                     const ExplainOptions& options);

/// True when some order is left if nothing is forbidden but these strokes; nothing when the limit is reached first.
[[nodiscard]] std::optional<bool> admitsOrder(FoldOracle& oracle, BendMask formed,
                                              const std::vector<ForbiddenStroke>& forbidden_strokes,
                                              std::uint64_t max_states);

/// In every order `first` is folded before `then`, or in the same stroke.
struct Precedence {
    BendId first;
    BendId then;
    std::vector<ForbiddenStroke> forbidden_strokes;  ///< with these alone no order has `then` before `first`; none can
                                                     ///< be left out
};

struct PrecedenceOptions {
    std::uint64_t max_states = 400;  ///< new states looked at for one pair of bends
    std::uint64_t max_states_in_all = 4'000;
};

struct Precedences {
    std::vector<Precedence> forced;  ///< ascending; those that follow from two others are left out
    bool all_pairs = true;           ///< false: a limit left pairs unanswered
};

/// Which bends must be folded before which, `known` being sequences of steps that work: what they show is not asked
/// again.
[[nodiscard]] Precedences forcedPrecedences(FoldOracle& oracle, BendMask formed,
                                            const std::vector<std::vector<BendMask>>& known,
                                            const PrecedenceOptions& options);

}  // namespace tinwright
