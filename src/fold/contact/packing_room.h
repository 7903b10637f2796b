// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <limits>

#include "contact/stroke_scene.h"

namespace tinwright {

/// How wide packing may be under a part as it lies for a stroke: up to what hangs under the sheet.
struct PackingRoom {
    bool enough = true;  ///< for the least that has to lie there
    double on_bed_mm = std::numeric_limits<double>::infinity();
    double on_leaf_mm = std::numeric_limits<double>::infinity();
};

/// `packing`: Machine::packing. More of the part only takes room away.
[[nodiscard]] PackingRoom packingRoom(const ContactCache& table, const StrokeScene& scene, std::size_t packing);

}  // namespace tinwright
