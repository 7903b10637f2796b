// SPDX-License-Identifier: GPL-3.0-or-later
#include "solids/track.h"

#include <cmath>

namespace tinwright::replay {

namespace {

bool meetAt(const Solid& a, const Track& track_a, const Solid& b, const Track& track_b, std::size_t step,
            const SolidAtStep* inside_b) {
    if (inside_b == nullptr) return meet(a, track_a.at(step), b, track_b.at(step));
    for (const Solid& solid : (*inside_b)[step]) {
        if (meet(a, track_a.at(step), solid, track_b.at(step))) return true;
    }
    return false;
}

}  // namespace

double Track::stepBound_mm(const Solid& solid) const {
    double radius = 0;
    for (const double y : {solid.box.min().y(), solid.box.max().y()}) {
        for (const double z : {solid.box.min().z(), solid.box.max().z()}) {
            radius = std::max(radius, std::hypot(y - centre_y_mm, z - centre_z_mm));
        }
    }
    return per_radius * radius + constant_mm;
}

Track still(const Rigid& pose) { return {{pose}, 0, 0, 0, 0}; }

std::optional<std::size_t> firstMeeting(const Solid& a, const Track& track_a, const Solid& b, const Track& track_b,
                                        std::size_t last, const SolidAtStep* inside_b) {
    const double nearer_mm = track_a.stepBound_mm(a) + track_b.stepBound_mm(b);
    for (std::size_t step = 0; step <= last;) {
        const double gap = boxAt(a, track_a.at(step)).exteriorDistance(boxAt(b, track_b.at(step)));
        if (gap <= 0 && meetAt(a, track_a, b, track_b, step, inside_b)) return step;
        const double free_steps = nearer_mm > 0 ? gap / nearer_mm : (gap > 0 ? 1e9 : 1.0);
        if (free_steps >= static_cast<double>(last - step + 1)) return std::nullopt;
        step += std::max<std::size_t>(1, static_cast<std::size_t>(free_steps));
    }
    return std::nullopt;
}

}  // namespace tinwright::replay
