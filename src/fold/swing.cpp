// SPDX-License-Identifier: GPL-3.0-or-later
#include "swing.h"

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

Vec2 Swing::shift(double a_rad) const { return middle(a_rad, std::cos(a_rad), std::sin(a_rad)).shift; }

double Swing::spread_mm(double a_rad) const { return middle(a_rad, std::cos(a_rad), std::sin(a_rad)).spread_mm; }

}  // namespace tinwright
