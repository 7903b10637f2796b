// SPDX-License-Identifier: GPL-3.0-or-later
#include "machine/leaf_motion.h"

#include <algorithm>
#include <cmath>

namespace tinwright::replay {

double leafBack_mm(const Bending& stroke, const Hinge& hinge, const Motion& motion, double angle_rad) {
    // Along the leaf's normal (sin a, cos a), from the bend's centre down; the leaf's face lies its height under the
    // hinge.
    const Vec2 arm = stroke.centre() - hinge.place();
    const double face = arm.x() * std::sin(angle_rad) + arm.y() * std::cos(angle_rad) + hinge.height_mm;
    return std::max(0.0, outerFace_mm(stroke, motion, angle_rad) - face);
}

}  // namespace tinwright::replay
