// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/part/model/part.h>

/// What plans demand of a part, by the machine models of src/fold/NOTES.md: the least with which a fold is possible.
/// Rules of the trade leave more, and are told beside it.
namespace tinwright::forming {

/// Flat sheet from the end of a bend on, in one V of the press brake: it bears on the shoulder to the end of the
/// stroke. None when the V does not take the bend at all.
[[nodiscard]] std::optional<double> plannedFlat_mm(const Part& part, const Bend& bend, const Shop& shop,
                                                   const BrakeInSetup& brake, const Vee& vee);

/// Flat sheet between two square bends of a Z on a leaf brake, when `made` is made after the other one: the flange of
/// that one hangs down in front of the leaf's shallowest face, and clears it all the way up.
[[nodiscard]] double plannedStepFlat_mm(const Part& part, const Bend& made, const Shop& shop,
                                        const BrakeInSetup& brake);

/// Deeper than this a contact is a collision.
inline constexpr double kPlannedContact_mm = 0.05;

}  // namespace tinwright::forming
