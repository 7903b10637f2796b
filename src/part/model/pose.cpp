// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/part/model/pose.h>

namespace tinwright {

namespace {

// Turns the u-z plane (u towards the child, z up) by `angle`, u towards z.
Eigen::Matrix3d rollMatrix(const Bend& bend, SinCos turn) {
    const Vec3 u(bend.toward_child.x(), bend.toward_child.y(), 0);
    const Vec3 v(bend.along.x(), bend.along.y(), 0);
    const Vec3 z = Vec3::UnitZ();
    return v * v.transpose() + turn.cos * (u * u.transpose() + z * z.transpose()) +
           turn.sin * (z * u.transpose() - u * z.transpose());
}

}  // namespace

Eigen::Matrix3d frontUp(Angle angle) {
    const SinCos turn = sinCos(angle);
    Eigen::Matrix3d matrix;
    matrix << 1, 0, 0, 0, turn.cos, turn.sin, 0, -turn.sin, turn.cos;
    return matrix;
}

Rigid parentFromChild(const Bend& bend, double thickness_mm, Angle angle, double inside_radius_mm) {
    const Vec2 tangent = bend.origin - 0.5 * bend.allowance_mm * bend.toward_child;
    const double centre_z = bend.up ? thickness_mm + inside_radius_mm : -inside_radius_mm;
    const Vec3 centre(tangent.x(), tangent.y(), centre_z);
    const Vec3 rolled(bend.allowance_mm * bend.toward_child.x(), bend.allowance_mm * bend.toward_child.y(), 0);
    const SinCos turn = sinCos(bend.up ? angle : Angle::radians(-angle.rad()));
    Rigid pose = Rigid::Identity();
    pose.linear() = rollMatrix(bend, turn);
    pose.translation() = centre - pose.linear() * (centre + rolled);
    return pose;
}

std::vector<Rigid> baseFromPanels(const Part& part, BendMask formed, double inside_radius_mm) {
    std::vector<Rigid> poses(part.panels.size(), Rigid::Identity());
    for (std::size_t i = 0; i < part.bends.size(); ++i) {  // parents come before children
        const Bend& bend = part.bends[i];
        const Rigid& parent = poses[bend.parent.index()];
        if (!contains(formed, idAt<BendId>(i))) {
            poses[bend.child.index()] = parent;
            continue;
        }
        const Bend made = finished(bend);
        const double radius = inside_radius_mm < 0 || bend.hem ? made.inside_radius_mm : inside_radius_mm;
        poses[bend.child.index()] = parent * parentFromChild(made, part.thickness_mm, made.angle, radius);
    }
    return poses;
}

}  // namespace tinwright
