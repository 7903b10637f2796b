// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

#include <tinwright/base/angle.h>
#include <tinwright/geometry/planar.h>

/// What stands on a machine in pieces: bars and fingers of a leaf brake, punches and dies of a press brake.
///
/// Profiles are polygons in (y, z), given as Vec2: y from the front of the machine to its back with the line of the
/// bend at y = 0, z up. Bars have z = 0 at the top of the clamped sheet and stand over it; punches have z = 0 at the
/// tip, dies at their top (all of a die is at z <= 0).
namespace tinwright {

/// The side of the sheet on which a tool stands.
enum class ToolRow {
    kUpper,  ///< over the sheet: bars and fingers of a leaf brake, punches of a press brake
    kLower,  ///< under it: dies
};

/// What all tools have: a kind of piece that the shop owns, and how many there are of it.
struct Tool {
    std::string id;
    double width_mm = 0;   ///< along the machine
    double height_mm = 0;  ///< over the sheet, tip to seat, or die top to seat
    Polygon profile;       ///< its section, simple, not always convex
    int count = 1;         ///< pieces of it
};

/// A bar or finger of a leaf brake; its profile has the nose line at y = 0, z >= 0.
struct Bar : Tool {
    double clamp_depth_mm = 0;        ///< nose to back, on the sheet
    double end_relief_mm = 0;         ///< how far both lower end corners are cut back along the machine
    double end_relief_height_mm = 0;  ///< up to this height over the sheet
};

/// The tip of a punch that reaches past its body at one end, so that what stands there clears the body.
struct Horn {
    double reach_mm = 0;   ///< of the tip past the body
    double height_mm = 0;  ///< the tip is full wide up to here, all over it is cut back
    bool at_left = true;   ///< at the piece's left end, else at its right
    friend bool operator==(const Horn&, const Horn&) = default;
};

/// A punch of a press brake.
struct Punch : Tool {
    double tip_radius_mm = 0;
    std::optional<Horn> horn;
    double max_kn_per_m = 0;  ///< force that it may take; 0: not said
};

/// The V of a die, whose middle is at y = 0.
struct Vee {
    double opening_mm = 0;  ///< between the lines where its flanks, were they not rounded, would meet the die's top
    Angle angle;            ///< between the flanks, under 180 degrees
    double shoulder_radius_mm = 0;  ///< between top and flank
    friend bool operator==(const Vee&, const Vee&) = default;
};

/// A slot in the front of a die whose upper half sinks when the punch presses into its V with nothing between: so it
/// closes hems.
struct Jaw {
    double depth_mm = 0;          ///< of its flats, from the die's front face back
    double floor_mm = 0;          ///< of the lower flat over the die's seat
    double opening_mm = 0;        ///< between the flats when nothing presses
    double hem_thickness_mm = 0;  ///< the thickest sheet whose hems it closes
    friend bool operator==(const Jaw&, const Jaw&) = default;
};

/// A die of a press brake.
struct Die : Tool {
    Vee vee;
    std::optional<Jaw> jaw;
    double max_kn_per_m = 0;  ///< force that it may take; 0: not said
};

/// Tools of one kind that differ in nothing but their width: they stand in one string as one. What a V or a tip makes
/// of the bend is not asked: on a brake in its set-up it is the same of all.
[[nodiscard]] bool sameSection(const Bar& a, const Bar& b);
[[nodiscard]] bool sameSection(const Punch& a, const Punch& b);
[[nodiscard]] bool sameSection(const Die& a, const Die& b);

}  // namespace tinwright
