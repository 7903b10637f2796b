// SPDX-License-Identifier: GPL-3.0-or-later
#include "solids/motion.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tinwright::replay {

namespace {

// The shift w of a point of the moving side before it is turned, in (y, z).
Vec2 shift(const Bending& stroke, const Motion& motion, double angle_rad) {
    if (angle_rad <= 0) return Vec2::Zero();  // both motions start at rest: D·sin a tends to the allowance
    const double a = stroke.movingShare() * angle_rad;
    const double allowance = stroke.movingShare() * stroke.allowance_mm;
    const double set = stroke.movingShare() * stroke.set_rad;
    const Vec2 rolling(allowance * a / set, 0);
    const double depth = allowance / a - allowance / set;
    const Vec2 uniform(allowance - depth * std::sin(a), -depth * (1.0 - std::cos(a)));
    return (1.0 - motion.uniform_share) * rolling + motion.uniform_share * uniform;
}

Rigid turnedAfterShift(const Bending& stroke, const Vec2& w, double angle_rad) {
    Rigid pose = turnUp(stroke.centre(), stroke.movingShare() * angle_rad);
    pose.translate(Vec3(0, w.x(), w.y()));
    return pose;
}

// How far the moving sheet's outer face is from the bend's centre, along its normal.
double outerFace_mm(const Bending& stroke, const Motion& motion, double angle_rad) {
    return stroke.nose_radius_mm + stroke.thickness_mm - shift(stroke, motion, angle_rad).y();
}

// How far the centre of a shoulder's arc is from the middle of the V: it touches the top as far outside the corner of
// top and flank as the flank under it.
double shoulderCentre_mm(const Vee& vee) {
    const double corner_rad = 0.5 * std::numbers::pi - 0.5 * vee.angle.rad();
    return 0.5 * vee.opening_mm + vee.shoulder_radius_mm * std::tan(0.5 * corner_rad);
}

}  // namespace

Rigid turnUp(const Vec2& about, double angle_rad) {
    Rigid pose = Rigid::Identity();
    pose.translate(Vec3(0, about.x(), about.y()));
    pose.rotate(Eigen::AngleAxisd(-angle_rad, Vec3::UnitX()));
    pose.translate(Vec3(0, -about.x(), -about.y()));
    return pose;
}

Rigid movingAt(const Bending& stroke, const Motion& motion, double angle_rad) {
    return turnedAfterShift(stroke, shift(stroke, motion, angle_rad), angle_rad);
}

Rigid sprungTo(const Bending& stroke, double angle_rad) {
    return turnedAfterShift(stroke, Vec2(stroke.movingShare() * stroke.allowance_mm, 0), angle_rad);
}

Rigid heldBeside(const Bending& stroke, const Rigid& moving) {
    Rigid held = Rigid::Identity();
    if (!stroke.isPress()) return held;
    const Vec3 mirror(1, -1, 1);
    held.linear() = mirror.asDiagonal() * moving.linear() * mirror.asDiagonal();
    held.translation() = mirror.cwiseProduct(moving.translation());
    return held;
}

double leafBack_mm(const Bending& stroke, const Motion& motion, double a) {
    // Along the leaf's normal (sin a, cos a), from the bend's centre down; the leaf's face lies hinge_height under the
    // hinge.
    const Vec2 arm = stroke.centre() - Vec2(-stroke.setback_mm, stroke.hinge_height_mm);
    const double face = arm.x() * std::sin(a) + arm.y() * std::cos(a) + stroke.hinge_height_mm;
    return std::max(0.0, outerFace_mm(stroke, motion, a) - face);
}

double dieRise_mm(const Bending& stroke, const Motion& motion, double angle_rad) {
    // The front shoulder's centre, at (-c, d - s), is s further out from the bend's centre along the sheet's normal
    // (-sin h, -cos h) than the sheet's outer face.
    const double h = 0.5 * angle_rad;
    const double s = stroke.vee->shoulder_radius_mm;
    const double out = outerFace_mm(stroke, motion, angle_rad) + s;
    return s + stroke.centre().y() - (out - shoulderCentre_mm(*stroke.vee) * std::sin(h)) / std::cos(h);
}

double bearingPlace_mm(const Bending& stroke, const Motion& motion, double angle_rad) {
    // The sheet touches the shoulder where the shoulder's centre is over it: so far along it from the foot of the
    // normal. What is there was w nearer to the bend's centre while the sheet was flat.
    const double h = 0.5 * angle_rad;
    const double below = dieRise_mm(stroke, motion, angle_rad) - stroke.vee->shoulder_radius_mm - stroke.centre().y();
    const double from_foot = shoulderCentre_mm(*stroke.vee) * std::cos(h) + below * std::sin(h);
    return from_foot + shift(stroke, motion, angle_rad).x();
}

double movingRate_mm(const Bending& stroke, double radius_mm) {
    // |d/da R(q + w)| <= |q| + |w| + |w'|. Rolling: |w| <= A, |w'| = A/S. Uniform: with D <= A/a,
    // |w_y| <= A, |w_z| <= A a/2 <= 1.6 A; |w_y'| <= A (a/3 + 1/S), |w_z'| <= A (1/2 + 1), a <= pi. Half of the sheet
    // is no faster.
    return radius_mm + stroke.allowance_mm * (6.0 + 1.0 / stroke.set_rad);
}

}  // namespace tinwright::replay
