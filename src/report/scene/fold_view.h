// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include <tinwright/brake/plan/plan.h>

#include "scene/fold_scene.h"
#include "scene/slab_cut.h"

namespace tinwright::report {

/// What the drawings of one fold share: the bodies, what stands on the machine, and where it is tightest.
struct FoldView {
    const FoldScene& scene;
    const ToolShapes& tools;
    std::vector<PlacedTool> bars;
    double part_x_mm = 0;                  ///< machine x of the fold's x = 0
    bool place_known = false;              ///< of the part along the machine
    std::optional<std::string> leaf_face;  ///< of a leaf brake, by name; none: the usual one
    std::optional<Packing> packing = std::nullopt;
    double tight_mm = 0;  ///< as the plan says it: proven, at least this
    Angle tight_at;       ///< of the swing, where `tight` is
    std::array<BodyRef, 2> tight_between;
    std::optional<NearestPoints> tight;  ///< where the two come nearest as drawn; none when they do not, or that
                                         ///< contradicts the figure
    std::optional<std::array<double, 2>> room_mm;  ///< along the machine, between which no string of bars stands
    std::optional<GaugeStop> gauge;                ///< of a press brake
    double cut_x_mm = 0;  ///< where the cross-section is taken: at the tightest place if the fold is seen there

    /// Ends of the machine in x of the fold; far out where the part's place on it is not known.
    [[nodiscard]] double left_mm() const;
    [[nodiscard]] double right_mm() const;
};

/// `step` with its scene; finds where the tightest clearance is and takes the section there.
[[nodiscard]] FoldView viewOf(const FoldScene& scene, const ToolShapes& tools, const FoldStep& step);

/// The first contact that a reason tells of, with tools of the kind that is met laid over the middle of the bend.
[[nodiscard]] FoldView viewOf(const FoldScene& scene, const ToolShapes& tools, const Reason& reason);

/// The swing's angle in a reason is rounded to a witness; the part is drawn there.
[[nodiscard]] std::vector<Slab> slabsOf(const FoldView& view, const std::vector<PartBody>& bodies, BodyRef body,
                                        Angle angle);

}  // namespace tinwright::report
