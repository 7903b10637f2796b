// SPDX-License-Identifier: GPL-3.0-or-later
#include "kernel/swing.h"

#include <algorithm>
#include <cmath>

namespace tinwright {

Swing::Swing(const Vec2& centre, double allowance_mm, double set_rad, StripStart start)
    : centre_(centre), allowance_mm_(allowance_mm), set_rad_(set_rad), start_(start) {}

// From the middle f = A (1 - a / S) / 2 is still flat on either side: q = C - f·ŷ + R(a)(p - C + f·ŷ + A (a / S)·ŷ).
Vec2 Swing::rollingShift(double a_rad, double cos_a, double sin_a) const {
    const double share = a_rad / set_rad_;
    if (start_ == StripStart::kAtHeld) return Vec2(allowance_mm_ * share, 0);
    const double flat_mm = 0.5 * allowance_mm_ * (1.0 - share);
    return Vec2(0.5 * allowance_mm_ * (1.0 + share), 0) - flat_mm * Vec2(cos_a, sin_a);
}

Vec2 Swing::uniformShift(double a_rad, double cos_a, double sin_a) const {
    // w = R(-a)(0, D) - (0, D) + A·ŷ with D = A/a - A/S; R(-a)ẑ - ẑ = (-sin a, cos a - 1).
    // Near 0 the quotients sin a / a and (1 - cos a) / a are taken from their series.
    const double sine = std::abs(a_rad) < 1e-4 ? 1.0 - a_rad * a_rad / 6.0 : sin_a / a_rad;
    const double versine = std::abs(a_rad) < 1e-4 ? 0.5 * a_rad : (1.0 - cos_a) / a_rad;
    const double share = 1.0 - a_rad / set_rad_;  // D = (A / a)·share
    return allowance_mm_ * Vec2(1.0 - sine * share, -versine * share);
}

Swing::Middle Swing::middle(double a_rad, double cos_a, double sin_a) const {
    const Vec2 rolling = rollingShift(a_rad, cos_a, sin_a);
    const Vec2 uniform = uniformShift(a_rad, cos_a, sin_a);
    return {0.5 * (rolling + uniform), 0.5 * (rolling - uniform).norm()};
}

// The y of rolling grows with the angle; so does that of uniform curvature, 1 - (sin a / a)(1 - a / S): both
// factors fall. Its z is never above 0, and never under -A·v·(1 - a / S) with the greatest v = (1 - cos a) / a within
// the span, which grows to 0.7247 at 2.331 rad and falls after that, and the least a. That of rolling is 0, or from the
// middle -A (1 - a / S) (sin a) / 2.
Swing::Box Swing::boxOver(double from_rad, double cos_from, double sin_from, double to_rad, double cos_to,
                          double sin_to) const {
    const double y_from =
        std::min(rollingShift(from_rad, cos_from, sin_from).x(), uniformShift(from_rad, cos_from, sin_from).x());
    const double y_to = std::max(rollingShift(to_rad, cos_to, sin_to).x(), uniformShift(to_rad, cos_to, sin_to).x());
    double lowest = to_rad > 2.33 ? 0.7247 : (to_rad < 1e-4 ? 0.5 * to_rad : (1.0 - cos_to) / to_rad);
    if (start_ == StripStart::kInMiddle) {
        const double sine = cos_to > 0 ? sin_to : (cos_from < 0 ? sin_from : 1.0);
        lowest = std::max(lowest, 0.5 * sine);
    }
    const double z_least = -allowance_mm_ * lowest * (1.0 - from_rad / set_rad_);
    return {Vec2(y_from, z_least), Vec2(y_to, 0)};
}

}  // namespace tinwright
