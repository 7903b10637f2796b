// SPDX-License-Identifier: GPL-3.0-or-later
#include "solids/motion.h"

#include <cmath>

namespace tinwright::replay {

namespace {

Rigid turnedAfterShift(const Bending& stroke, const Vec2& w, double angle_rad) {
    Rigid pose = turnUp(stroke.centre(), stroke.movingShare() * angle_rad);
    pose.translate(Vec3(0, w.x(), w.y()));
    return pose;
}

}  // namespace

Vec2 shiftBeforeTurn(const Bending& stroke, const Motion& motion, double angle_rad) {
    if (angle_rad <= 0) return Vec2::Zero();  // both motions start at rest: D·sin a tends to the allowance
    const double a = stroke.movingShare() * angle_rad;
    const double allowance = stroke.movingShare() * stroke.allowance_mm;
    const double set = stroke.movingShare() * stroke.set_rad;
    const Vec2 rolling(allowance * a / set, 0);
    const double depth = allowance / a - allowance / set;
    const Vec2 uniform(allowance - depth * std::sin(a), -depth * (1.0 - std::cos(a)));
    return (1.0 - motion.uniform_share) * rolling + motion.uniform_share * uniform;
}

double outerFace_mm(const Bending& stroke, const Motion& motion, double angle_rad) {
    return stroke.inside_radius_mm + stroke.thickness_mm - shiftBeforeTurn(stroke, motion, angle_rad).y();
}

Rigid turnUp(const Vec2& about, double angle_rad) {
    Rigid pose = Rigid::Identity();
    pose.translate(Vec3(0, about.x(), about.y()));
    pose.rotate(Eigen::AngleAxisd(-angle_rad, Vec3::UnitX()));
    pose.translate(Vec3(0, -about.x(), -about.y()));
    return pose;
}

Rigid movingAt(const Bending& stroke, const Motion& motion, double angle_rad) {
    return turnedAfterShift(stroke, shiftBeforeTurn(stroke, motion, angle_rad), angle_rad);
}

Rigid sprungTo(const Bending& stroke, double angle_rad) {
    return turnedAfterShift(stroke, Vec2(stroke.movingShare() * stroke.allowance_mm, 0), angle_rad);
}

Rigid heldBeside(const Bending& stroke, const Rigid& moving) {
    Rigid held = Rigid::Identity();
    if (!stroke.both_sides_move) return held;
    const Vec3 mirror(1, -1, 1);
    held.linear() = mirror.asDiagonal() * moving.linear() * mirror.asDiagonal();
    held.translation() = mirror.cwiseProduct(moving.translation());
    return held;
}

double movingRate_mm(const Bending& stroke, double radius_mm) {
    // |d/da R(q + w)| <= |q| + |w| + |w'|. Rolling: |w| <= A, |w'| = A/S. Uniform: with D <= A/a,
    // |w_y| <= A, |w_z| <= A a/2 <= 1.6 A; |w_y'| <= A (a/3 + 1/S), |w_z'| <= A (1/2 + 1), a <= pi. Half of the sheet
    // is no faster.
    return radius_mm + stroke.allowance_mm * (6.0 + 1.0 / stroke.set_rad);
}

}  // namespace tinwright::replay
