// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <vector>

#include <tinwright/base/ids.h>
#include <tinwright/sequence/states/oracle.h>

namespace tinwright {

/// The order problem of one part on one brake without any geometry: what other solvers can be asked.
struct ConstraintProblem {
    /// Strokes that cannot be made while `formed` are formed and `flat` are not.
    struct Ban {
        std::vector<std::uint32_t> strokes;  ///< into `strokes`, ascending
        BendMask formed = 0;
        BendMask flat = 0;
    };
    /// Bends formed and what stands on the machine, numbered as they were met.
    struct Node {
        BendMask formed = 0;
        std::uint32_t machine_state = 0;
    };
    struct Arc {
        std::uint32_t from = 0, to = 0;  ///< into `nodes`
        std::uint32_t stroke = 0;
        StepCost cost;
    };

    std::size_t bends = 0;
    BendMask formed = 0;          ///< at the start
    std::vector<Stroke> strokes;  ///< ascending; a stroke can be made when all its bends are unformed and no ban holds
    std::vector<Ban> bans;
    bool complete = false;  ///< every state that possible strokes reach was looked at: the bans say all there is to say
    std::vector<Node> nodes;      ///< the first is the start; only those from which the part can be finished
    std::vector<Arc> arcs;        ///< every step between them, with what it costs
    bool costs_complete = false;  ///< false: too many nodes, `nodes` and `arcs` are empty
};

struct ConstraintLimits {
    std::uint64_t max_states = 70'000;
    std::size_t max_nodes = 50'000;
};

/// Undecided folds count as impossible. The bans are general where the oracle's answers are.
[[nodiscard]] ConstraintProblem compileConstraints(FoldOracle& oracle, BendMask formed, const ConstraintLimits& limits);

}  // namespace tinwright
