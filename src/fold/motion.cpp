// SPDX-License-Identifier: GPL-3.0-or-later
#include "motion.h"

#include <algorithm>

namespace tinwright {

// From H + R(-a)(C + R(a)(p - C + w) - H) = p + (H - C) + R(-a)(C - H) + w. The leaf's face, drawn back along its
// normal, is the solid moved up by as much.
Vec2 Motion::slide(double a_rad) const {
    const double cos_a = std::cos(a_rad);
    const double sin_a = std::sin(a_rad);
    const Vec2 arm = swing_->centre() - hinge_;
    const Vec2 back = turnedUp(arm, cos_a, -sin_a) - arm;
    // The sheet's underside is as far from C as C stands over the bed; the face's distance from C along its own normal:
    const double underside_mm = swing_->centre().y();
    const double face_mm = arm.x() * sin_a + arm.y() * cos_a + hinge_.y();
    const double give_way_mm = std::max(0.0, underside_mm - face_mm);
    return swing_->shift(a_rad) + back + Vec2(0, give_way_mm);
}

}  // namespace tinwright
