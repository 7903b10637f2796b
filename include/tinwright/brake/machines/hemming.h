// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/part_on_brake.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/part/model/part.h>

/// How brakes make hems: a first fold to a sharp angle, then flattening, under the clamp of a leaf brake or in the jaw
/// of a die.
namespace tinwright {

/// A first fold under this buckles when it is pressed flat; over the other nothing is gained. Common practice, from
/// memory: 130° to 150°.
inline constexpr double kLeastFirstFold_deg = 120;
inline constexpr double kMostFirstFold_deg = 150;

/// The thickest sheet whose hems a brake closes: under its clamp, or in the jaw of a die that it has; 0: none.
[[nodiscard]] double hemThickness_mm(const BrakeInSetup& brake);

/// To which angle the brake folds a hem first: whole degrees, so much that with the overbend it is still within what
/// the leaf swings or the flanks of its sharpest V allow, and what a short return goes up round the slimmest of its
/// bars or punches; no more than kMostFirstFold_deg. Not negative.
[[nodiscard]] Angle firstFoldAngle(const BrakeInSetup& brake, double overbend_deg);

/// Why a brake cannot make the hem, whatever else is folded, in words that go on from the bend's name; empty when
/// nothing speaks against it. `folded`: of a PartOnBrake.
[[nodiscard]] std::string whyNoHem(const Part& folded, const Shop& shop, const BrakeInSetup& brake, BendId bend);

/// Two flats between which hems are closed, y as in profiles: from the front over the depth.
struct HemFlats {
    double front_mm = 0;
    double depth_mm = 0;
    double opens_mm = 0;  ///< how far apart they come; no limit (loose bars): very far
};

/// Of this bar of a leaf brake with the bed under it; depth 0: none.
[[nodiscard]] HemFlats clampFlats(const BrakeInSetup& brake, const Bar& bar);
/// Of the jaw of this die, which has one.
[[nodiscard]] HemFlats jawFlats(const Die& die);

/// What a die's jaw is expected to be, when it cannot be that; empty when it can: under the V and over the seat, no
/// deeper than the die.
[[nodiscard]] std::string whyNoJaw(const Die& die);

/// From the outside of the closed fold to the far edge of its return, both told along the parent.
[[nodiscard]] double hemDepth_mm(const Part& part, BendId bend);

}  // namespace tinwright
