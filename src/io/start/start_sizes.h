// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <vector>

#include <tinwright/base/units.h>
#include <tinwright/io/start/start_part.h>

#include "start/start_view.h"

namespace tinwright {

/// What the far edge of the walls carries.
enum class FarEdge { kFree, kTurnedOut, kTurnedIn };

/// Walls lean in at their ends by this: the usual overbend of 3 degrees (FAA-H-8083-31 for leaf brakes: set 93 to get
/// 90) and half a degree to spare, so that at any height they do not meet while they are overbent.
inline constexpr double kWallMitre_deg = 3.5;

/// Defaults for a file in inches are those in mm with 25 mm as an inch: round figures in either.
inline constexpr double kRoundInch_mm = 25.0;

/// Every size of the part to be, defaults taken in; mm.
struct StartSizes {
    BaseView view;
    double thickness_mm, radius_mm, k;
    std::array<bool, 4> has_wall{};  ///< by BaseEdge
    double across_mm, along_mm;      ///< base: x and y; between inside faces, or to an edge without a wall
    double inside_height_mm;         ///< of the walls
    double least_height_mm;          ///< what the component needs
    FarEdge far = FarEdge::kFree;
    double corner_gap_mm;
    double mitre_deg;  ///< of both ends of the walls of a box

    std::vector<ComponentSide> fix;  ///< walls that are fixed by what hangs on them
    int fixings;
    double turned_mm;  ///< tab, foot or lip: outside length (lip: inside)
    double tab_width_mm, tab_inset_mm;
    double screw_mm;  ///< 0: no holes
    double screw_from_far_mm;

    /// Flat length of a wall between its bends.
    [[nodiscard]] double wallFlat_mm() const;
    /// Of a box: the far edge of the wall at this edge of the base, after mitre and corner gap.
    [[nodiscard]] double farEdge_mm(std::size_t edge) const;
    /// Walls on the two edges that end an axis of the base (0: x, 1: y).
    [[nodiscard]] int wallsAcross(std::size_t axis) const;
};

/// Any choice; what makes no sense in it is for checkStart to say.
[[nodiscard]] StartSizes startSizes(const StartChoice& choice);

/// The hole for a screw keeps 1.5 t + r from its bend (shared rule for holes, a stamping design guide) and this from
/// its free edge.
[[nodiscard]] double leastTurned_mm(const StartSizes& sizes);

/// What checkStart says of a choice; places are words of the choice.
[[nodiscard]] Issues checkStart(const StartChoice& choice);

/// An opening in the base, as a cut-out's place says it: from edges of the base.
struct StartOpening {
    const char* word;  ///< "window", "boss"
    bool round;
    double width_mm, height_mm;  ///< round: both the hole's diameter
    double left_mm, lower_mm;    ///< its sides from the wall's inside face, or from a free edge
};
[[nodiscard]] std::vector<StartOpening> startOpenings(const StartChoice& choice, const StartSizes& sizes);

}  // namespace tinwright
