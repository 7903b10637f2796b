// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/tooling/bar_sums.h>

namespace tinwright {

/// How far the end of a bar must stay from the inside face of a wall that stands beside it: the wall's inside radius is
/// in the way of a square lower corner, which would ride up on it (shared/practice.md section 2, from the geometry).
/// End relief that is as deep and as high as the radius takes it away.
[[nodiscard]] double endRoom_mm(const Bar& bar, double wall_radius_mm);
/// The same of any tool; punches have no end relief.
[[nodiscard]] double endRoom_mm(const Brake& brake, ToolId tool, double wall_radius_mm);
/// The same when the bar may lie a little way up on the inside radius, by 0.04 mm: what lifts it by no more than the
/// contact tolerance only touches. Punches, which cannot lift, keep what they need.
[[nodiscard]] double touchingRoom_mm(const Brake& brake, ToolId tool, double wall_radius_mm);

/// Bars that may stand in one string: a kind of section each, and all kinds together; of a press brake its punches, and
/// all of one height together. Those of one section and end relief need the same room at their ends; a mixed string is
/// given the largest of its kinds, whichever pieces stand at its ends.
struct BarPool {
    ToolCounts available;         ///< pieces, by bar of the brake; 0 for those not in the pool
    double end_room_mm = 0;       ///< at each end of a string, for the radius asked about
    double touching_room_mm = 0;  ///< the same where it may touch
};
[[nodiscard]] std::vector<BarPool> barPools(const BrakeInSetup& brake);

/// A string of bars between two standing walls.
struct BarFit {
    ToolCounts counts;
    int pieces = 0;
    double width_mm = 0;       ///< of all its pieces
    double end_room_mm = 0;    ///< where it is not comfortable that of a bar that touches the inside radius
    double slack_mm = 0;       ///< what is left of the inside width when the rooms at both ends are taken off
    double gaps_mm = 0;        ///< opened up between its pieces to cover the bend within the limits
    double covered_share = 0;  ///< of the bend between the walls
    bool comfortable = false;  ///< with the wanted clearance at both ends; else just the plus side
};

/// An interval of inside widths, both ends included.
struct WidthRange {
    double least_mm = 0;
    double most_mm = 0;
    BarFit with;  ///< the string, at the least width
};

/// Strings that come under an inside width and cover the bend between the walls within the limits: comfortable ones
/// first, then fewest pieces, then best cover. Widths are told to a micrometre. The walls are folded square on this
/// brake; the bend goes from the strip of one to that of the other, so it is shorter than the inside width by the
/// inside radius at each end. Corners that are cut deeper make it shorter still.
[[nodiscard]] std::vector<BarFit> barFits(const BrakeInSetup& brake, const Limits& limits, double inside_width_mm);

/// Inside widths from `least_mm` to `most_mm` that some string suits comfortably, by string, ascending in their least
/// width.
[[nodiscard]] std::vector<WidthRange> suitedWidths(const BrakeInSetup& brake, const Limits& limits, double least_mm,
                                                   double most_mm);

/// "B30 + 2 x B45": the pieces of a string by their ids, in the order of the brake.
[[nodiscard]] std::string toolNames(const Brake& brake, const ToolCounts& counts);

}  // namespace tinwright
