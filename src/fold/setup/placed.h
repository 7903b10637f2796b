// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <vector>

#include "setup/bar_strings.h"

namespace tinwright {

/// How sure the obstacles are.
enum class Certainty : std::uint8_t {
    kWanted,  ///< everything nearer than the wanted clearance
    kOuter,   ///< everything that may be in the way
    kInner,   ///< only what is witnessed
};

/// Where along x (fold frame) things are in the way.
struct Obstacles {
    IntervalSet machine;            ///< of bodies as long as the machine
    std::vector<IntervalSet> bars;  ///< of bars, by family
    IntervalSet frames;  ///< of side frames, where they stood in the middle of the machine: all of it has to be between
                         ///< them
};

/// A part and bars put on the machine.
struct Placed {
    std::size_t face = 0;
    Micron part_x_um = 0;
    BarString bars;  ///< fold x
    bool plain_ways = true;
};

}  // namespace tinwright
