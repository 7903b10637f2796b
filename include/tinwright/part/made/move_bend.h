// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/base/result.h>
#include <tinwright/part/model/part.h>

namespace tinwright {

/// A bend line put elsewhere on the blank, at another angle.
struct BendMove {
    BendId bend;
    double toward_child_mm = 0;
    Angle angle;
    double allowance_mm = 0;  ///< the strip at that angle, centred on the line
};

/// The bend moved by so much and nothing else of it.
[[nodiscard]] BendMove lineMove(const Part& part, BendId bend, double toward_child_mm);

/// The part with it there. Issues "made.sheet", "made.panel", "made.strip" and warnings as asMade().
[[nodiscard]] Result<Part> withBendMoved(const Part& part, const BendMove& move);

}  // namespace tinwright
