// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/sheet_motion.h"

#include <variant>

#include <tinwright/part/model/bend_frame.h>

namespace tinwright::report {

std::unique_ptr<const SheetMotion> sheetMotion(const BrakeInSetup& brake, double thickness_mm, double allowance_mm) {
    const SheetInBend sheet{thickness_mm, brake.inside_radius_mm(), allowance_mm};
    return std::visit([&](const auto& kind) { return motionOfKind(kind, brake, sheet); }, brake->kind);
}

Rigid upward(double z_mm) { return Rigid(Eigen::Translation3d(0, 0, z_mm)); }

Rigid rolledUp(const Vec2& centre, Angle angle, double rolled_mm) {
    const Vec3 about(0, centre.x(), centre.y());
    Rigid pose = Rigid::Identity();
    pose.linear() = frontUp(angle);
    pose.translation() = about + pose.linear() * (Vec3(0, rolled_mm, 0) - about);
    return pose;
}

}  // namespace tinwright::report
