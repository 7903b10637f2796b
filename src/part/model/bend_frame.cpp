// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/part/model/bend_frame.h>

namespace tinwright {

Eigen::Matrix3d foldAxes(const Bend& bend, Side hold) {
    const Vec2 back = towards(bend, hold);
    const Vec3 y(back.x(), back.y(), 0);
    const Vec3 z = bend.up ? Vec3(0, 0, 1) : Vec3(0, 0, -1);
    Eigen::Matrix3d axes;
    axes.row(0) = y.cross(z).transpose();
    axes.row(1) = y.transpose();
    axes.row(2) = z.transpose();
    return axes;
}

Rigid foldFromBlank(const Bend& bend, Side hold, double thickness_mm, double strip_back_mm) {
    Rigid pose = Rigid::Identity();
    pose.linear() = foldAxes(bend, hold);
    const Vec2 tangent = bend.origin + 0.5 * bend.allowance_mm * towards(bend, hold);
    const Vec3 lower(tangent.x(), tangent.y(), bend.up ? 0 : thickness_mm);
    pose.translation() = Vec3(0, strip_back_mm, 0) - pose.linear() * lower;
    return pose;
}

}  // namespace tinwright
