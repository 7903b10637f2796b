// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/geometry/interval_set.h>

#include "kernel/motion.h"
#include "kernel/solid.h"

namespace tinwright {

/// A convex piece of a tool's section, with the ring it keeps to about the centre of the motion that it is asked about.
struct ToolPiece {
    ToolPiece(const Convex2& piece, const Vec2& centre) : section(piece), ring(radiusRange(section.points(), centre)) {}
    Convex2 section;
    RadiusRange ring;
};
using ToolPieces = std::vector<ToolPiece>;

/// A section as it lies before a motion, with the ring it keeps to about the motion's centre.
struct SeenSection {
    SeenSection(const Convex2& seen, const Motion& motion)
        : section(&seen), ring(radiusRange(seen.points(), motion.centre())), reach_mm(motion.shiftBound_mm()) {}
    const Convex2* section;
    RadiusRange ring;
    double reach_mm;  ///< how far the motion may take it out of the ring
};

/// A solid as it lies before a motion.
struct SeenSolid : SeenSection {
    SeenSolid(const Solid& seen, const Motion& motion) : SeenSection(seen.section(), motion), solid(&seen) {}
    const Solid* solid;
};

/// Where along x a solid meets a tool at some moment of a motion. `outer` contains every x at which any motion within
/// the spread comes within `margin` of the tool; `inner` (margin 0 only) holds x at which every such motion overlaps
/// it.
struct Shadow {
    IntervalSet outer;
    IntervalSet inner;
};

/// Proof that the section stays further than the margin from a tool during the whole motion; false when spans halved
/// `depth` times do not prove it.
[[nodiscard]] bool staysClear(const SeenSection& seen, const Motion& motion, const Convex2& tool,
                              const RadiusRange& tool_ring, double margin_mm, int depth);

/// Adds the shadow of `seen` on one tool piece; false when there is none.
bool castShadow(const SeenSolid& seen, const Motion& motion, const ToolPiece& tool, double margin_mm, Shadow& shadow);

/// A proven lower bound of the distance in (y, z) between solid and tool over the motion, and where it is least.
/// Distances over `cap_mm` are not told apart: then the cap comes back.
struct GapBound {
    double gap_mm = 0;
    double at_rad = 0;
};
[[nodiscard]] GapBound leastGap(const SeenSolid& seen, const Motion& motion, const ToolPiece& tool, double cap_mm);

/// The first angle at which overlap is witnessed, to about a tenth of a degree; negative when there is none.
/// `depth_mm` gets the greatest overlap seen.
[[nodiscard]] double firstContact_rad(const SeenSolid& seen, const Motion& motion, const ToolPiece& tool,
                                      double& depth_mm);

}  // namespace tinwright
