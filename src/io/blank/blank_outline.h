// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/io/blank/blank_io.h>

namespace tinwright {

/// A ring of a region as a closed cut line, with arcs where corners lie on one at equal steps as round cut-outs do.
[[nodiscard]] DrawnLoop drawnLoop(const Polygon& ring);

}  // namespace tinwright
