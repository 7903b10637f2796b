// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/geometry/interval_set.h>

#include "motion.h"
#include "solid.h"

namespace tinwright {

/// A convex piece of a tool's section, relative to the centre of a motion.
struct ToolPiece {
    ToolPiece(const Convex2& section, const Vec2& centre)
        : relative(section.moved(-centre)), radius(radiusRange(section.points(), centre)) {}
    Convex2 relative;
    RadiusRange radius;
};
using ToolPieces = std::vector<ToolPiece>;

/// A solid seen from the centre of a motion.
struct SeenSolid {
    SeenSolid(const Solid& seen, const Motion& motion)
        : solid(&seen), relative(seen.section().moved(-motion.centre())),
          radius(radiusRange(seen.section().points(), motion.centre())), motionReach_mm(motion.shiftBound_mm()) {}
    const Solid* solid;
    Convex2 relative;
    RadiusRange radius;
    double motionReach_mm;   ///< how far the motion may take it out of its ring about the centre
};

/// Where along x a solid meets a tool at some moment of a motion. `outer` contains every x at which any motion within
/// the spread comes within `margin` of the tool; `inner` (margin 0 only) holds x at which every such motion overlaps it.
struct Shadow {
    IntervalSet outer;
    IntervalSet inner;
};

/// Adds the shadow of `seen` on one tool piece.
void castShadow(const SeenSolid& seen, const Motion& motion, const ToolPiece& tool, double margin_mm, Shadow& shadow);

/// A proven lower bound of the distance in (y, z) between solid and tool over the motion, and where it is least.
/// Distances over `cap_mm` are not told apart: then the cap comes back.
struct LeastGap {
    double gap_mm = 0;
    double at_rad = 0;
};
[[nodiscard]] LeastGap leastGap(const SeenSolid& seen, const Motion& motion, const ToolPiece& tool, double cap_mm);

/// The first angle at which overlap is witnessed, to about a tenth of a degree; negative when there is none.
/// `depth_mm` gets the greatest overlap seen.
[[nodiscard]] double firstContact_rad(const SeenSolid& seen, const Motion& motion, const ToolPiece& tool, double& depth_mm);

}  // namespace tinwright
