// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "contact/contact_cache.h"

namespace tinwright {

/// What the return of a hem and its strip go through while it is closed, in the frame of a fold of the bend that holds
/// the child (NOTES.md, "Hems").
struct HemSweep {
    std::vector<Solid> swept;   ///< prisms along x that hold them on all of their way
    std::vector<Solid> first;   ///< the return as its first fold leaves it
    std::vector<Solid> closed;  ///< and closed
    double stands_mm = 0;       ///< highest z before
};

[[nodiscard]] HemSweep sweepOfHem(const ContactCache& table, BendId bend);

}  // namespace tinwright
