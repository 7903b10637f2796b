// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "solids/solid.h"

namespace tinwright::replay {

/// Where something is at each step of a movement, and how far its points can go from one step to the next.
struct Track {
    std::vector<Rigid> poses;  ///< one a step; a single one when it stands still
    double centre_y_mm = 0;    ///< the bound below holds for points this far from (centre_y, centre_z):
    double centre_z_mm = 0;
    double per_radius = 0;  ///< a point at radius r goes at most per_radius * r + constant a step
    double constant_mm = 0;

    [[nodiscard]] const Rigid& at(std::size_t step) const { return poses[poses.size() == 1 ? 0 : step]; }
    [[nodiscard]] double stepBound_mm(const Solid& solid) const;
};

/// Something that stays where it is, or at a place.
[[nodiscard]] Track still(const Rigid& pose = Rigid::Identity());

/// The solid that stands for another one at a step, when its shape changes along the way (always inside of it).
using SolidAtStep = std::vector<std::vector<Solid>>;

/// The first of steps 0..last at which the two meet. Steps at which their boxes are too far apart to have met
/// since the last look are left out: that is sound, not a sample. With `inside_b` the solids tested against `a`
/// are those, and `b` only bounds them.
[[nodiscard]] std::optional<std::size_t> firstMeeting(const Solid& a, const Track& track_a, const Solid& b,
                                                      const Track& track_b, std::size_t last,
                                                      const SolidAtStep* inside_b = nullptr);

}  // namespace tinwright::replay
