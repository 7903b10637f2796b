// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/part/model/part.h>

namespace tinwright {

/// Fills in Part::edges as partFromFlat() says; panels and bends are there.
void addFlatEdges(Part& part);

}  // namespace tinwright
