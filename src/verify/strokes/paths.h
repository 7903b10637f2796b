// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "strokes/stroke.h"

namespace tinwright::replay {

/// Replays how pieces and part come out: before the fold (the way in told backwards) and after it.
void checkWays(const Scene& scene, std::vector<std::string>& wrong);

}  // namespace tinwright::replay
