// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/part/model/part.h>

namespace tinwright {

/// Named edges of the two panels of a bend, cut or grown to what is free of them now; those of which nothing is left
/// go. `drawn`: the part before the bend was moved.
void renewEdges(const Part& drawn, BendId bend, Part& moved);

/// Cut-outs that most of lies on the other side of the bend now are told on the panel there.
void renewCutOuts(const Part& drawn, BendId bend, Part& moved);

}  // namespace tinwright
