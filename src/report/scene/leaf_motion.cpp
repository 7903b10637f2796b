// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/sheet_motion.h"

namespace tinwright::report {
namespace {

/// The sheet rolls round the nose; the held side lies still.
class LeafMotion final : public SheetMotion {
public:
    explicit LeafMotion(const SheetInBend& sheet) : sheet_(sheet) {}

    [[nodiscard]] SheetMoment at(double angle_rad, double share) const override {
        const Vec2 centre(sheet_.inside_radius_mm, sheet_.thickness_mm + sheet_.inside_radius_mm);
        return {rolledUp(centre, Angle::radians(angle_rad), sheet_.allowance_mm * share), Rigid::Identity(),
                Rigid::Identity(), angle_rad, share};
    }

    [[nodiscard]] RollsFrom rollsFrom() const override { return RollsFrom::kHeldSide; }

private:
    SheetInBend sheet_;
};

}  // namespace

std::unique_ptr<const SheetMotion> motionOfKind(const LeafBrake& /*kind*/, const BrakeInSetup& /*brake*/,
                                                const SheetInBend& sheet) {
    return std::make_unique<LeafMotion>(sheet);
}

}  // namespace tinwright::report
