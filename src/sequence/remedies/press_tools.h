// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include <tinwright/base/angle.h>
#include <tinwright/brake/machines/press_brake.h>

/// Punches and dies that a shop could have instead of its own: the section is made from that of the shop's.
namespace tinwright {

/// The seat is moved up, with all of the profile that is level with it.
void heighten(Punch& punch, double height_mm);

/// How deep the hollow of a gooseneck lies behind its tip; none: the punch has no hollow, or its back stands no further
/// back than its front does forward.
[[nodiscard]] std::optional<double> throatDepth_mm(const Punch& punch);
/// The gooseneck with its hollow that deep and with as much steel behind it, heights as they are. Nothing: no such
/// section can be made under this seat.
[[nodiscard]] std::optional<Punch> withThroat(const Punch& punch, double depth_mm);

/// The angle between the flanks of a straight punch; none: its front and its back are not alike.
[[nodiscard]] std::optional<Angle> tipAngle(const Punch& punch);
/// A straight punch of the gooseneck's tip, height and body, without its hollow and its horn; nothing: no gooseneck, or
/// no such section can be made.
[[nodiscard]] std::optional<Punch> straightened(const Punch& gooseneck);
/// No blunter than this; nothing: not straight, or no such section can be made.
[[nodiscard]] std::optional<Punch> asSharpAs(const Punch& punch, Angle angle);
/// With a V no wider than this; nothing: it has a jaw, or no such section can be made.
[[nodiscard]] std::optional<Die> asSharpAs(const Die& die, Angle angle);

}  // namespace tinwright
