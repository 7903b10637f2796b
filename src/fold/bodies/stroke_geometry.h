// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <memory>
#include <vector>

#include <tinwright/brake/machines/part_on_brake.h>
#include <tinwright/brake/machines/shop.h>

#include "bodies/part_bodies.h"
#include "machine/machine.h"

namespace tinwright {

enum class Phase { kBefore, kAfter };  ///< of the stroke

/// A part and a machine in the frames of the strokes that bend it. Nothing in it changes once made, and nothing
/// depends on a state of the part.
class StrokeGeometry {
public:
    /// Refers to the part and the shop, which must stay where they are.
    StrokeGeometry(const PartOnBrake& part, const Shop& shop, std::unique_ptr<const Machine> machine,
                   const std::vector<double>& radii_mm);

    [[nodiscard]] const PartBodies& bodies() const { return bodies_; }
    [[nodiscard]] const Part& part() const { return bodies_.part(); }
    [[nodiscard]] const Machine& machine() const { return *machine_; }
    [[nodiscard]] const Limits& limits() const { return *limits_; }
    [[nodiscard]] const BendMotions& motions(BendId bend) const { return *motions_[bend.index()]; }
    [[nodiscard]] double set_rad(BendId bend) const { return motions_[bend.index()]->set_rad; }
    /// The first bend whose stroke goes the same way but for the frame it is in.
    [[nodiscard]] std::size_t motionClass(BendId bend) const { return motion_class_[bend.index()]; }

    /// From the blank frame of the held panel to the frame of the bend.
    [[nodiscard]] Rigid bendFrame(BendId bend, Side hold) const;
    /// Slices of the strip of the bend at an angle, in the bend's frame, longer at each end, and moved by `then`.
    [[nodiscard]] std::vector<Solid> slicesAt(BendId bend, Side hold, Angle angle, double longer_mm,
                                              const Rigid& then = Rigid::Identity()) const;
    /// Where lower tools lie when the part has sprung back and still bears on them, over where the stroke began.
    [[nodiscard]] double riseAfter_mm(BendId bend) const {
        return machine_->rise_mm(0.5 * part().bend(bend).angle.rad());
    }

private:
    std::unique_ptr<const Machine> machine_;
    PartBodies bodies_;
    const Limits* limits_;
    std::vector<std::unique_ptr<BendMotions>> motions_;
    std::vector<std::size_t> motion_class_;  // by bend
};

/// The solids moved along x.
[[nodiscard]] std::vector<Solid> shiftedAlong(const std::vector<Solid>& solids, Micron shift_um);

}  // namespace tinwright
