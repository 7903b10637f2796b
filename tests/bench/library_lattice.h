// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Folds of all states of a part as a general collision library decides them: its bodies are made once, a fold poses
// them, and at every sampled angle of the swing its box test comes first, then convex against convex, up to the first
// contact.

#include <cstdint>
#include <memory>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>

#include "oracle_model.h"

namespace tinwright::bench {

/// One bend about to be folded by itself.
struct Question {
    BendMask formed = 0;
    BendId bend;
    Side hold = Side::kParent;
};

/// What stands, in the frame of the bend (x = 0 at Bend::origin).
struct MachineState {
    struct Piece {
        std::size_t bar = 0;  ///< of the brake: its section and end relief
        double from_mm = 0;
        double to_mm = 0;
    };
    std::vector<Piece> bars;
    std::size_t face = 0;
    double machine_from_mm = 0;  ///< bed, leaf and beam
    double machine_to_mm = 0;
};

class LibraryLattice {
public:
    LibraryLattice(const Part& part, const BrakeInSetup& brake, double overbend_deg, double step_deg);
    ~LibraryLattice();
    LibraryLattice(const LibraryLattice&) = delete;
    LibraryLattice& operator=(const LibraryLattice&) = delete;

    [[nodiscard]] const oracle::LeafModel& stroke(BendId bend, Side hold) const;
    /// A bar of the brake's first section over all of the bend, on a machine without ends.
    [[nodiscard]] MachineState barOverBend(BendId bend, Side hold) const;
    /// Whether anything goes deeper into anything than the contact tolerance at a sampled angle: the held side and
    /// bars, bed, beam, swinging leaf; the moving side and these, the leaf as it bears on it; the moving and the held
    /// side; at the end the bent strip and the held side.
    bool collides(const Question& question, const MachineState& machine_state, oracle::Forming forming);
    /// The same with bodies as they are or grown a little, and angles a tenth as far apart.
    bool meetsLookedAtCloser(const Question& question, const MachineState& machine_state, oracle::Forming forming);

    struct Work {
        std::uint64_t box_tests = 0;
        std::uint64_t convex_tests = 0;
    };
    [[nodiscard]] Work work() const;

private:
    class Scene;
    std::unique_ptr<Scene> scene_;
};

}  // namespace tinwright::bench
