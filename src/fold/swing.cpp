// SPDX-License-Identifier: GPL-3.0-or-later
#include "swing.h"

#include <algorithm>
#include <cmath>

namespace tinwright {

Swing::Swing(double nose_radius_mm, double thickness_mm, double allowance_mm, double set_rad)
    : centre_(nose_radius_mm, thickness_mm + nose_radius_mm), allowance_mm_(allowance_mm), set_rad_(set_rad) {}

Vec2 Swing::rollingShift(double a_rad) const { return Vec2(allowance_mm_ * a_rad / set_rad_, 0); }

Vec2 Swing::uniformShift(double a_rad, double cos_a, double sin_a) const {
    // w = R(-a)(0, D) - (0, D) + A·ŷ with D = A/a - A/S; R(-a)ẑ - ẑ = (-sin a, cos a - 1).
    // Near 0 the quotients sin a / a and (1 - cos a) / a are taken from their series.
    const double sine = std::abs(a_rad) < 1e-4 ? 1.0 - a_rad * a_rad / 6.0 : sin_a / a_rad;
    const double versine = std::abs(a_rad) < 1e-4 ? 0.5 * a_rad : (1.0 - cos_a) / a_rad;
    const double share = 1.0 - a_rad / set_rad_;  // D = (A / a)·share
    return allowance_mm_ * Vec2(1.0 - sine * share, -versine * share);
}

Swing::Middle Swing::middle(double a_rad, double cos_a, double sin_a) const {
    const Vec2 rolling = rollingShift(a_rad);
    const Vec2 uniform = uniformShift(a_rad, cos_a, sin_a);
    return {0.5 * (rolling + uniform), 0.5 * (rolling - uniform).norm()};
}

// Rolling moves along y alone, and grows with the angle. So does the y of uniform curvature, 1 - (sin a / a)(1 - a / S): both
// factors fall. Its z is never above 0, and never under -A·v·(1 - a / S) with the greatest v = (1 - cos a) / a within the span,
// which grows to 0.7247 at 2.331 rad and falls after that, and the least a.
Swing::Box Swing::boxOver(double from_rad, double cos_from, double sin_from, double to_rad, double cos_to, double sin_to) const {
    const double y_from = std::min(rollingShift(from_rad).x(), uniformShift(from_rad, cos_from, sin_from).x());
    const double y_to = std::max(rollingShift(to_rad).x(), uniformShift(to_rad, cos_to, sin_to).x());
    const double versine = to_rad > 2.33 ? 0.7247 : (to_rad < 1e-4 ? 0.5 * to_rad : (1.0 - cos_to) / to_rad);
    const double z_least = -allowance_mm_ * versine * (1.0 - from_rad / set_rad_);
    return {Vec2(y_from, z_least), Vec2(y_to, 0)};
}

}  // namespace tinwright
