// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/base/angle.h>
#include <tinwright/brake/machines/brake_in_setup.h>

/// How the leaf of a leaf brake bears on the sheet that it swings, given where its hinge is from the nose line (the
/// setback). Geometry of a leaf that turns with the sheet: src/fold/NOTES.md, "The leaf on the sheet".
namespace tinwright {

/// One bend on a leaf brake.
struct LeafBend {
    double thickness_mm = 0;
    double allowance_mm = 0;  ///< its strip
    Angle set;                ///< of the sheet at the end of the swing
};

/// How far past the bend's strip the leaf begins, measured on the flat of what swings, at the most over the swing. Not
/// negative. What is shorter is never touched by the leaf all the way.
[[nodiscard]] double leafBegins_mm(const BrakeInSetup& brake, const LeafBend& bend);

/// How deep the leaf would press into the sheet at the end of the swing, turned as far as the sheet; negative: how far
/// it stands off.
[[nodiscard]] double leafPresses_mm(const BrakeInSetup& brake, const LeafBend& bend);

/// Strips under the sheet where the leaf is packed up, measured on the flat of what swings from the end of the bend's
/// strip on.
struct PackingOnLeaf {
    double begins_mm = 0;  ///< their near edge, at the most over the swing; may be negative
    double least_mm = 0;   ///< so wide they are at least, to carry the land all through the swing
};
[[nodiscard]] PackingOnLeaf packingOnLeaf(const BrakeInSetup& brake, const LeafBend& bend, double land_mm);

/// True when the setback is less than the thickness of the sheet with what packs it up, and the leaf presses deeper
/// than with a setback of that, and than the shop says that the hinge gives way.
[[nodiscard]] bool leafJams(const BrakeInSetup& brake, const LeafBend& bend);

/// How much further than the sheet a leaf is to be swung that stands off, until its face touches what swings at the end
/// of its flat of `flat_mm` past the strip, or at the leaf's own edge. 0 when it does not stand off.
[[nodiscard]] Angle leafLead(const BrakeInSetup& brake, const LeafFace& face, const LeafBend& bend, double flat_mm);

}  // namespace tinwright
