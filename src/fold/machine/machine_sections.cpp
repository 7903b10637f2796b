// SPDX-License-Identifier: GPL-3.0-or-later
#include "machine/machine_sections.h"

#include <utility>

namespace tinwright {

Polygon rectangle(double y_lo, double y_hi, double z_lo, double z_hi) {
    return {Vec2(y_lo, z_lo), Vec2(y_hi, z_lo), Vec2(y_hi, z_hi), Vec2(y_lo, z_hi)};
}

Polygon shiftedBy(Polygon polygon, const Vec2& by) {
    for (Vec2& point : polygon) point += by;
    return polygon;
}

std::vector<Polygon> between(const Polygon& profile, double z_lo, double z_hi) {
    std::vector<Polygon> pieces;
    for (Region& region : intersection(Region{profile, {}}, rectangle(-kBeyond_mm, kBeyond_mm, z_lo, z_hi))) {
        pieces.push_back(std::move(region.outline));
    }
    return pieces;
}

}  // namespace tinwright
