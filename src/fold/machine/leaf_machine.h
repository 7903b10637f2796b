// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/brake/machines/leaf_on_sheet.h>

#include "machine/machine.h"

namespace tinwright {

/// A leaf brake: bed, beam, the leaf in each of its faces, bars over the sheet. The held side lies still, the leaf
/// swings the other up.
class LeafMachine final : public Machine {
public:
    LeafMachine(const BrakeInSetup& brake, double thickness_mm, const std::vector<double>& packings_mm = {});

    [[nodiscard]] DrivenMotions fromDriven(const Swing& swing, const Swing& half, std::size_t packing) const override;
    [[nodiscard]] bool comesDownLate(double set_rad) const override;
    [[nodiscard]] double mostAngle_rad() const override { return brake_->leaf().max_leaf_angle.rad(); }
    [[nodiscard]] bool reaches(double set_rad) const override;
    [[nodiscard]] bool standsOff(const BendMotions& motions, std::size_t packing) const override;
    [[nodiscard]] Angle lead(const BendMotions& motions, std::size_t face, double flat_mm) const override;
    [[nodiscard]] AngleLimit angleLimit(double set_rad) const override;
    [[nodiscard]] std::optional<double> sideDepthToSwing_mm(const BendMotions& motions,
                                                            const Limits& limits) const override;
    [[nodiscard]] bool swingsWith(std::size_t face, const BendMotions& motions, double flat_mm,
                                  const Limits& limits) const override;
    [[nodiscard]] double packedPresses_mm(std::size_t packing, const BendMotions& motions) const override;
    [[nodiscard]] PackedLie packedLie(std::size_t packing, const BendMotions& motions,
                                      const Limits& limits) const override;
    [[nodiscard]] double overDriven_mm(const DrivenView& group, const BendMotions& motions,
                                       const std::vector<Vec3>& corners) const override;
    [[nodiscard]] bool drivenSees(const DrivenView& group, const BendMotions& motions, double over_driven_mm,
                                  double clearance_mm) const override;
    [[nodiscard]] bool drivenBears(const DrivenView& group, bool driven_sees) const override;
    [[nodiscard]] bool fits(std::size_t family, std::size_t face, const BendMotions& motions,
                            const StripSlices& strip) const override;
    [[nodiscard]] FlatDepth flatDepth(const BendMotions& motions, double clamped_land_mm) const override;

private:
    void addFaces(std::size_t packing);
    void addBar(const Bar& bar, ToolFamily& family);
    [[nodiscard]] bool swings(double set_rad) const;
    [[nodiscard]] LeafBend bendOf(const BendMotions& motions) const;
    std::vector<BrakeInSetup> packed_;  // by packing; the first is the brake as it is
    double leaf_reach_mm_ = 0;          // from the hinges
};

}  // namespace tinwright
