// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>

#include "machine/replayed_machine.h"

namespace tinwright::replay {

/// One for each alternative of `Brake::kind`, in a file of its own; see `replayedMachine`. `stroke` is told with the
/// held side still.
[[nodiscard]] std::shared_ptr<const ReplayedMachine> replayedKind(const LeafBrake& leaf, const BrakeInSetup& brake,
                                                                  const FoldStep& step, const Bending& stroke);
[[nodiscard]] std::shared_ptr<const ReplayedMachine> replayedKind(const PressBrake& press, const BrakeInSetup& brake,
                                                                  const FoldStep& step, const Bending& stroke);

}  // namespace tinwright::replay
