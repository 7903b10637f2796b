// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/base/contract.h>
#include <tinwright/brake/tooling/vee_bearing.h>

#include "scene/sheet_motion.h"

namespace tinwright::report {
namespace {

/// Front and back exchanged.
Rigid mirrored(const Rigid& pose) {
    const Vec3 mirror(1, -1, 1);
    Rigid other = Rigid::Identity();
    other.linear() = mirror.asDiagonal() * pose.linear() * mirror.asDiagonal();
    other.translation() = mirror.cwiseProduct(pose.translation());
    return other;
}

/// The sheet rolls round the punch's tip, which takes half of the angle and half of the strip on each side. The model's
/// punch stands still and the die comes up; all is moved so that it is the other way round.
class PressMotion final : public SheetMotion {
public:
    PressMotion(const SheetInBend& sheet, const Vee& vee)
        : sheet_(sheet), bearing_(vee, sheet.thickness_mm + sheet.inside_radius_mm) {}

    [[nodiscard]] SheetMoment at(double angle_rad, double share) const override {
        const Rigid down = upward(-punchDown_mm(Angle::radians(angle_rad)));
        const Vec2 centre(0, sheet_.thickness_mm + sheet_.inside_radius_mm);
        const Rigid front = rolledUp(centre, Angle::radians(0.5 * angle_rad), 0.5 * sheet_.allowance_mm * share);
        return {down * front, down * mirrored(front), down, angle_rad, share};
    }

    [[nodiscard]] RollsFrom rollsFrom() const override { return RollsFrom::kMiddle; }

    [[nodiscard]] double punchDown_mm(Angle angle) const override {
        const SinCos half = sinCos(Angle::radians(0.5 * angle.rad()));
        return bearing_.rise(half.cos, half.sin, 0).middle_mm;
    }

private:
    SheetInBend sheet_;
    VeeBearing bearing_;
};

}  // namespace

std::unique_ptr<const SheetMotion> motionOfKind(const PressBrake& /*kind*/, const BrakeInSetup& brake,
                                                const SheetInBend& sheet) {
    TINWRIGHT_REQUIRE(brake.vee() != nullptr, "a press brake is in one V");
    return std::make_unique<PressMotion>(sheet, *brake.vee());
}

}  // namespace tinwright::report
