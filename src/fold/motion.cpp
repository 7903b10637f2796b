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
    // Rolling keeps the sheet's underside as far from C as C stands over the bed; uniform curvature lets it sink by
    // D(1 - cos a). The leaf bears on the sheet whichever it is: its face, at its own distance from C, gives way to
    // the lowest that the sheet may be.
    const double sink_mm = -swing_->uniformShift(a_rad).y();
    const double underside_mm = swing_->centre().y() + 0.5 * sink_mm + swing_->spread_mm(a_rad);
    const double face_mm = arm.x() * sin_a + arm.y() * cos_a + hinge_.y();
    const double give_way_mm = std::max(0.0, underside_mm - face_mm);
    return swing_->shift(a_rad) + back + Vec2(0, give_way_mm);
}

}  // namespace tinwright
