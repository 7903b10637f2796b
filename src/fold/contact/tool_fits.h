// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <map>

#include "contact/own_strips.h"

namespace tinwright {

/// What tools fit a bend wherever they stand, whatever else is folded. Each answer is computed once.
class ToolFits {
public:
    ToolFits(const StrokeGeometry& geometry, OwnStrips& strips) : geometry_(geometry), strips_(strips) {}

    /// Machine::fits.
    bool fits(BendId bend, Side hold, std::size_t family, std::size_t face);
    /// True when what is driven, with the sheet on it, keeps out of what stands over the pieces.
    bool drivenClearsBeam(BendId bend, std::size_t face);

private:
    const StrokeGeometry& geometry_;
    OwnStrips& strips_;
    std::map<std::array<std::size_t, 4>, bool> known_;  // bend, hold, body, face
};

}  // namespace tinwright
