// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/kind_models.h"

#include <variant>

namespace tinwright {

namespace {

const char* modelOfKind(const LeafBrake&) {
    return "rigid flat panels; one stroke a bend to its set angle; no part-way bends, straightening, bowing or "
           "cutting; "
           "every bend takes the brake's nose radius; one setback for all folds; tooling as entered; either side held; "
           "ways out tried: pieces up, back, back and up, along and up, and by several such moves round one another; "
           "the part up, forward, along, and tilted as it is drawn out";
}

const char* modelOfKind(const PressBrake&) {
    return "rigid flat panels; one stroke a bend to its set angle, in one V for all bends; no part-way bends, "
           "straightening, bowing or cutting; every bend takes the inside radius of that V; tooling as entered; either "
           "side to the back; punches and dies stay where they stand; ways out tried: out of the V and forward under "
           "the raised punch, along the machine off an end, and tilted as it is drawn out while the ram goes up and "
           "down";
}

}  // namespace

std::string modelOf(const Brake& brake) {
    return std::visit([](const auto& kind) { return modelOfKind(kind); }, brake.kind);
}

}  // namespace tinwright
