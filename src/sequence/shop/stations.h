// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/brake/machines/brake.h>
#include <tinwright/fold/engine/fold_engine.h>

namespace tinwright {

/// Set-ups of a press brake standing side by side along the machine, so that the part goes from one station to the next
/// and nothing is changed between folds: all of them together, and each two, as many as the shop's pieces and the
/// machine's length allow. Only set-ups of the same heights of punches and dies go together, since one ram presses them
/// all. Between stations there are `room_um`, or as much as there is. A set-up that another one contains is left out.
[[nodiscard]] std::vector<Setup> stationsOf(const Brake& brake, const std::vector<Setup>& setups, Micron room_um);

}  // namespace tinwright
