// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/base/angle.h>
#include <tinwright/brake/machines/tool.h>
#include <tinwright/geometry/planar.h>

namespace tinwright {

/// How far the leaf's face reaches out from its hinge, and how thick the leaf is there.
struct LeafFace {
    std::string name;  ///< "full", "narrow", ...; the first one listed is the usual one
    double reach_mm = 0;
    double thickness_mm = 0;
};

/// What stands over the bars: a block from (front_y_mm, height_mm) up and back without end.
struct Beam {
    double height_mm = 0;   ///< underside over the sheet when clamped; z = 0 at the bed's top, closed on nothing
    double front_y_mm = 0;  ///< its front face, behind the nose line when positive
};

/// How the bars are held.
enum class ClampKind {
    kLooseBars,  ///< bars are laid on by hand and lift off freely (magnetic folder)
    kOnBeam,     ///< fingers or a bar hang on a beam that lifts by `opening_mm`
};

/// A leaf brake: it clamps the sheet under bars and swings a leaf up. Profiles have the nose line at y = 0; bed and
/// leaf z = 0 at the bed's top.
struct LeafBrake {
    Angle max_leaf_angle = Angle::degrees(135);
    std::vector<LeafFace> leaf_faces;  ///< at least one
    double nose_radius_mm = 0;         ///< shared by all bars of this brake: the radius that bends take
    double setback_mm = -1;            ///< nose line to hinge; negative: it is set to one sheet thickness,
    double setback_least_mm = 0;       ///< or as near to it as it can be set
    double setback_most_mm = 1000;
    double hinge_gives_mm = 0;   ///< so much the hinge gives way when the setback is less than the sheet
    double hinge_height_mm = 0;  ///< hinge over the bed's top
    Polygon bed;                 ///< section, simple; top at z = 0, y = 0 at the hinge line (not the nose)
    std::optional<Beam> beam;    ///< none: nothing stands over the bars
    ClampKind clamp = ClampKind::kLooseBars;
    double opening_mm = 0;            ///< lift of the beam (kOnBeam)
    bool pieces_out_in_place = true;  ///< pieces can be loosened and taken out singly with the part in the brake
    double hem_thickness_mm = 0;      ///< the thickest sheet whose hems its clamp closes; 0: none, or not said
    std::vector<Bar> bars;
};

}  // namespace tinwright
