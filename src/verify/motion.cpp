// SPDX-License-Identifier: GPL-3.0-or-later
#include "motion.h"

#include <algorithm>
#include <cmath>

namespace tinwright::replay {

namespace {

// The shift w of a point before it is turned, in (y, z).
Vec2 shift(const Stroke& stroke, const Motion& motion, double a) {
    const double allowance = stroke.allowance_mm;
    if (a <= 0) return Vec2::Zero();  // both motions start at rest: D·sin a tends to the allowance
    const Vec2 rolling(allowance * a / stroke.set_rad, 0);
    const double depth = allowance / a - allowance / stroke.set_rad;
    const Vec2 uniform(allowance - depth * std::sin(a), -depth * (1.0 - std::cos(a)));
    return (1.0 - motion.uniform_share) * rolling + motion.uniform_share * uniform;
}

Rigid turnedAfterShift(const Stroke& stroke, const Vec2& w, double a) {
    Rigid pose = turnUp(stroke.centre(), a);
    pose.translate(Vec3(0, w.x(), w.y()));
    return pose;
}

}  // namespace

Rigid turnUp(const Vec2& about, double angle_rad) {
    Rigid pose = Rigid::Identity();
    pose.translate(Vec3(0, about.x(), about.y()));
    pose.rotate(Eigen::AngleAxisd(-angle_rad, Vec3::UnitX()));
    pose.translate(Vec3(0, -about.x(), -about.y()));
    return pose;
}

Rigid movingAt(const Stroke& stroke, const Motion& motion, double angle_rad) {
    return turnedAfterShift(stroke, shift(stroke, motion, angle_rad), angle_rad);
}

Rigid sprungTo(const Stroke& stroke, double angle_rad) {
    return turnedAfterShift(stroke, Vec2(stroke.allowance_mm, 0), angle_rad);
}

double leafBack_mm(const Stroke& stroke, const Motion& motion, double a) {
    // Along the leaf's normal (sin a, cos a), from the bend's centre down: the sheet's outer face is at
    // rn + t - w_z, the leaf's face (which lies hinge_height under the hinge) at `face`.
    const Vec2 arm = stroke.centre() - Vec2(-stroke.setback_mm, stroke.hinge_height_mm);
    const double face = arm.x() * std::sin(a) + arm.y() * std::cos(a) + stroke.hinge_height_mm;
    const double sheet = stroke.nose_radius_mm + stroke.thickness_mm - shift(stroke, motion, a).y();
    return std::max(0.0, sheet - face);
}

double movingRate_mm(const Stroke& stroke, double radius_mm) {
    // |d/da R(q + w)| <= |q| + |w| + |w'|. Rolling: |w| <= A, |w'| = A/S. Uniform: with D <= A/a,
    // |w_y| <= A, |w_z| <= A a/2 <= 1.6 A; |w_y'| <= A (a/3 + 1/S), |w_z'| <= A (1/2 + 1), a <= pi.
    return radius_mm + stroke.allowance_mm * (6.0 + 1.0 / stroke.set_rad);
}

}  // namespace tinwright::replay
