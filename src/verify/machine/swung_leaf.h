// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/plan/plan.h>

#include "machine/leaf_motion.h"
#include "solids/bodies.h"
#include "solids/steps.h"
#include "solids/track.h"

namespace tinwright::replay {

/// A leaf that swings the moving side of the sheet up by bearing on it.
class SwungLeaf {
public:
    SwungLeaf(const BrakeInSetup& brake, const FoldStep& step, const Bending& stroke, LeafFace face);

    /// At rest.
    [[nodiscard]] const Body& body() const { return body_; }
    [[nodiscard]] Track track(const Steps& steps) const;
    /// At rest with its face taken back as far as the sheet pushes it at that angle, and less `off_mm` all round; empty
    /// when nothing of it is left.
    [[nodiscard]] std::vector<Prism> pushedBack(const Motion& motion, double angle_rad, double off_mm) const;

private:
    Bending stroke_;
    Hinge hinge_;
    LeafFace face_;
    double from_mm_;  // along the machine
    double to_mm_;
    double packed_mm_;
    Body body_;
};

}  // namespace tinwright::replay
