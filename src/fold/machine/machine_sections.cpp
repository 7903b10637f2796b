// SPDX-License-Identifier: GPL-3.0-or-later
#include "machine/machine_sections.h"

#include <utility>

#include <tinwright/geometry/polygons.h>

namespace tinwright {

std::vector<Polygon> between(const Polygon& profile, double z_lo, double z_hi) {
    std::vector<Polygon> pieces;
    for (Region& region : intersection(Region{profile, {}}, rectangle(-kBeyond_mm, kBeyond_mm, z_lo, z_hi))) {
        pieces.push_back(std::move(region.outline));
    }
    return pieces;
}

}  // namespace tinwright
