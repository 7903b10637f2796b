// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/part/model/part.h>

#include "developing/layout.h"

namespace tinwright {

/// What the bends leave free of an edge of a panel, from its start on.
[[nodiscard]] std::vector<Segment> freePieces(const Part& part, PanelId panel, const Segment& edge);

}  // namespace tinwright
