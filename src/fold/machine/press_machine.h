// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/brake/tooling/vee_bearing.h>

#include "machine/machine.h"

namespace tinwright {

/// A press brake in one V: ram and punches stand, dies and bed come up to them; the back and the front of the sheet
/// rise by half of the bend each, and bear on the shoulders.
class PressMachine final : public Machine {
public:
    PressMachine(const BrakeInSetup& brake, double thickness_mm);

    [[nodiscard]] bool standsOn(std::size_t family, std::size_t face) const override;
    [[nodiscard]] DrivenMotions fromDriven(const Swing& swing, const Swing& half, std::size_t packing) const override;
    [[nodiscard]] bool comesDownLate(double) const override { return false; }
    [[nodiscard]] double mostAngle_rad() const override { return 2 * bearing_.steepest_rad(); }
    [[nodiscard]] bool reaches(double set_rad) const override;
    [[nodiscard]] double rise_mm(double half_rad) const override;
    [[nodiscard]] double overDriven_mm(const DrivenView& group, const BendMotions& motions,
                                       const std::vector<Vec3>& corners) const override;
    [[nodiscard]] bool drivenSees(const DrivenView& group, const BendMotions& motions, double over_driven_mm,
                                  double clearance_mm) const override;
    [[nodiscard]] bool drivenBears(const DrivenView& group, bool driven_sees) const override;
    [[nodiscard]] bool fits(std::size_t family, std::size_t face, const BendMotions& motions,
                            const StripSlices& strip) const override;
    [[nodiscard]] FlatDepth flatDepth(const BendMotions& motions, double clamped_land_mm) const override;
    [[nodiscard]] double lift_mm(std::size_t face, double rise_mm) const override;
    [[nodiscard]] double openHeight_mm() const override;

    [[nodiscard]] const VeeBearing& bearing() const { return bearing_; }

private:
    struct Heights {  // of a face
        double punch_mm = 0;
        double die_mm = 0;
    };
    void addFrames();
    void addFaces();
    void addPunch(const Punch& punch, ToolFamily& family);
    void addDie(const Die& die, ToolFamily& family);
    void addJaw(const Die& die, ToolFamily& family);
    [[nodiscard]] double overDies_mm(bool moving, const BendMotions& motions, const std::vector<Vec3>& corners) const;
    [[nodiscard]] bool dieFits(std::size_t family, std::size_t face, const BendMotions& motions,
                               const StripSlices& strip) const;
    [[nodiscard]] bool punchFits(std::size_t family, const BendMotions& motions, const StripSlices& strip) const;

    VeeBearing bearing_;
    std::vector<Heights> heights_;
    double vee_free_mm_ = 0;  // how far under their top all dies leave the V free
};

}  // namespace tinwright
