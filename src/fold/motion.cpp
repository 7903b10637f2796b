// SPDX-License-Identifier: GPL-3.0-or-later
#include "motion.h"

#include <algorithm>

namespace tinwright {

// Rolling keeps the sheet's underside as far from C as C stands over the bed; uniform curvature lets it sink by
// D(1 - cos a). The leaf bears on the sheet whichever it is: its face, at its own distance from C, gives way to the lowest that
// the sheet may be.
double Motion::giveWay_mm(const Swing& swing, double a_rad) const {
    const Vec2 arm = swing.centre() - hinge_;
    const double sink_mm = -swing.uniformShift(a_rad).y();
    const double underside_mm = swing.centre().y() + 0.5 * sink_mm + swing.spread_mm(a_rad);
    const double face_mm = arm.x() * std::sin(a_rad) + arm.y() * std::cos(a_rad) + hinge_.y();
    return std::max(0.0, underside_mm - face_mm);
}

// From H + R(-a)(C + R(a)(p - C + w) - H) = p + (H - C) + R(-a)(C - H) + w. The leaf's face, drawn back along its
// normal, is the solid moved up by as much.
Vec2 Motion::slide(double a_rad) const {
    const Vec2 arm = swing_->centre() - hinge_;
    const Vec2 back = turnedUp(arm, std::cos(a_rad), -std::sin(a_rad)) - arm;
    return swing_->shift(a_rad) + back + Vec2(0, giveWay_mm(*swing_, a_rad));
}

}  // namespace tinwright
