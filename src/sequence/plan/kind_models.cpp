// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/kind_models.h"

#include <variant>

namespace tinwright {

namespace {

const char* modelOfKind(const LeafBrake&) {
    return "rigid flat panels; one stroke a bend to its set angle; no part-way bends, straightening, bowing or "
           "cutting; every "
           "bend takes "
           "the brake's nose radius; tooling as entered; either side held; ways out tried: pieces up, back, back and "
           "up, "
           "along and up; the "
           "part up, forward, along, and by a planar search with tilt in steps of 5 mm and 3 degrees";
}

const char* modelOfKind(const PressBrake&) {
    return "rigid flat panels; one stroke a bend to its set angle, in one V for all bends; no part-way bends, "
           "straightening, "
           "bowing or cutting; every bend takes "
           "the inside radius of that V; tooling as entered; either side to the back; punches and dies stay where they "
           "stand; "
           "ways out tried: out of the V and forward "
           "under the raised punch, along the machine off an end, and by a planar search with tilt in steps of 5 mm "
           "and 3 "
           "degrees";
}

}  // namespace

std::string modelOf(const Brake& brake) {
    return std::visit([](const auto& kind) { return modelOfKind(kind); }, brake.kind);
}

}  // namespace tinwright
