// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/brake/machines/brake.h>
#include <tinwright/geometry/planar.h>

/// Sections of press-brake dies made from the few numbers that a person measures at the bench.
///
/// Frame of a die's profile: Vec2 is (y, z); the V's middle is y = 0, y goes to the back of the machine, the top is z =
/// 0 and all of the die lies under it. Shoulders are arcs that touch the top and a flank; the corners that stand in for
/// them lie outside by kNoseArcError_mm (bar_profile.h) at most: a die is never taken thinner than it is.
///
///     DieSection die{{{{16, Angle::degrees(88), 2}, 0, {}}}, 60, 30};
///     if (whyNoDieSection(die).empty()) Polygon section = dieSection(die, 0);
namespace tinwright {

/// A slot sawn or milled into the bottom of a V.
struct VeeSlot {
    double width_mm = 0;
    double depth_mm = 0;  ///< of its floor under the die's top
};

/// A V as it is cut into a block.
struct VeeCut {
    Vee vee;
    double offset_mm = 0;         ///< of the V's middle behind the block's middle
    std::optional<VeeSlot> slot;  ///< none: the flanks run down until they meet
};

/// What is measured on a die: one V, or several side by side in one block.
struct DieSection {
    std::vector<VeeCut> cuts;  ///< in any order
    double height_mm = 0;
    double body_width_mm = 0;  ///< front to back
};

/// How far the flanks of a V reach down until they meet: no sheet bent in it gets deeper, as long as they are steeper
/// than the sheet.
[[nodiscard]] double veeDepth_mm(const Vee& vee);

/// How far under the top a die's section leaves the V free, but for a strip `tolerance_mm` wide along its flanks: down
/// to where these meet, or to the floor of one that is filled up.
[[nodiscard]] double freeDepth_mm(const Polygon& section, const Vee& vee, double tolerance_mm = 0.05);

/// How far from the V's middle the shoulders' arcs touch the top.
[[nodiscard]] double shoulderOut_mm(const Vee& vee);

/// What was expected instead of these numbers, in words for the person who measured; empty when they describe a V.
/// Limits: finite numbers; an angle of 5 to 170 degrees; an opening of at least 0.5 mm; a shoulder radius of 0 or at
/// least 0.01 mm that leaves some of the flank.
[[nodiscard]] std::string whyNoVee(const Vee& vee);

/// The same of a die, all of whose Vs are looked at: they leave a floor of 1 mm, and with their shoulders meet neither
/// one another nor the block's faces.
[[nodiscard]] std::string whyNoDieSection(const DieSection& die);

/// The section as a simple counter-clockwise polygon, moved so that y = 0 is the middle of the V numbered `used`.
/// Calling this on numbers that whyNoDieSection finds fault with is a programmer's error.
[[nodiscard]] Polygon dieSection(const DieSection& die, std::size_t used);

/// Why a section that was given point by point cannot be that of a die with this V (itself one that whyNoVee lets pass)
/// at y = 0; empty when it can: it is simple, its top is z = 0, and from the top to half the V's depth it has neither
/// more nor less steel than that V leaves by more than a strip twice `tolerance_mm` wide.
[[nodiscard]] std::string whyNoDie(const Polygon& section, const Vee& vee, double tolerance_mm = 0.05);

}  // namespace tinwright
