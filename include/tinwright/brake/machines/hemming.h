// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include <tinwright/base/angle.h>
#include <tinwright/base/ids.h>
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

/// Why a brake cannot make a hem, whatever else is folded.
struct NoHem {
    enum class Why : std::uint8_t {
        kNoJaw,        ///< no die of a press brake closes hems
        kClampUnsaid,  ///< the shop file does not say that the clamp of a leaf brake does
        kThickness,    ///< the sheet is thicker than limit_mm
        kFirstSwing,   ///< swung first to no more than `first_fold`, the return buckles
        kFirstPress,   ///< the same of a press brake
        kSwallowed,    ///< `panel` is no longer than what the first fold takes, limit_mm to either side of the line
    };
    Why why = Why::kNoJaw;
    BendId bend;
    double limit_mm = 0;
    Angle first_fold;
    PanelId panel;
};

/// Nothing when nothing speaks against it.
[[nodiscard]] std::optional<NoHem> whyNoHem(const PartOnBrake& part, const Shop& shop, const BrakeInSetup& brake,
                                            BendId bend);

/// In words that go on from the bend's name: findings, replays and reasons say it alike.
[[nodiscard]] std::string toText(const NoHem& why, const Part& part);

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
