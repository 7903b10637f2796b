// SPDX-License-Identifier: GPL-3.0-or-later
#include "machine/bend_motions.h"

#include "machine/machine.h"

namespace tinwright {

namespace {

// The whole strip is on the arc, and so it stays when the part springs back: the side that began at C + (-strip) starts
// where the arc ends.
Rigid swungAbout(const Swing& swing, double angle_rad) {
    const Vec3 centre(0, swing.centre().x(), swing.centre().y());
    Rigid pose = Rigid::Identity();
    pose.linear() = frontUp(Angle::radians(angle_rad));
    pose.translation() = centre + pose.linear() * (Vec3(0, swing.allowance_mm(), 0) - centre);
    return pose;
}

// The pose of the back, whose mirror image in y is the front.
Rigid mirrored(const Rigid& front) {
    const Eigen::Matrix3d flip = Eigen::Vector3d(1, -1, 1).asDiagonal();
    Rigid back = Rigid::Identity();
    back.linear() = flip * front.linear() * flip;
    back.translation() = flip * front.translation();
    return back;
}

}  // namespace

Rigid swungBy(const BendMotions& motions, double angle_rad) { return swungAbout(motions.swing, angle_rad); }

Rigid sideSwungBy(const Machine& machine, const BendMotions& motions, bool moving, double angle_rad) {
    if (!machine.movesBothSides()) return moving ? swungBy(motions, angle_rad) : Rigid::Identity();
    const Rigid front = swungAbout(motions.half, 0.5 * angle_rad);
    return moving ? front : mirrored(front);
}

BendMotions::BendMotions(const Machine& machine, double allowance_mm, double angle_rad)
    : set_rad(angle_rad),
      strip_front_mm(machine.stripBack_mm(allowance_mm) - allowance_mm),
      strip_back_mm(machine.stripBack_mm(allowance_mm)),
      swing(Vec2(strip_back_mm, machine.centre().y()), allowance_mm, angle_rad,
            machine.movesBothSides() ? StripStart::kInMiddle : StripStart::kAtHeld),
      half(machine.movesBothSides() ? Swing(machine.centre(), 0.5 * allowance_mm, 0.5 * angle_rad) : swing),
      pair(Motion::swing(swing)),
      held(machine.movesBothSides() ? Motion::back(half) : Motion::still()),
      moving(Motion::swing(half)),
      rise_mm(machine.rise_mm(half.set_rad())) {
    for (std::size_t packing = 0; packing < machine.packingCount(); ++packing)
        from_driven.push_back(machine.fromDriven(swing, half, packing));
    if (machine.comesDownLate(angle_rad)) late = moving.late();
}

}  // namespace tinwright
