// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/brake/machines/tool.h>

#include "solids/motion.h"

namespace tinwright::replay {

/// How far the die of a press brake has come up when both sheets bear on the shoulders of its V.
[[nodiscard]] double dieRise_mm(const Bending& stroke, const Vee& vee, const Motion& motion, double angle_rad);

/// Where they bear on them: how far that place is from the middle of the strip while the sheet is flat.
[[nodiscard]] double bearingPlace_mm(const Bending& stroke, const Vee& vee, const Motion& motion, double angle_rad);

}  // namespace tinwright::replay
