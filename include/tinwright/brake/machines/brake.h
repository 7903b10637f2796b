// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include <tinwright/base/angle.h>
#include <tinwright/base/ids.h>
#include <tinwright/brake/shop/cutting.h>
#include <tinwright/brake/shop/tolerances.h>
#include <tinwright/geometry/planar.h>
#include <tinwright/part/allowance/measured_bends.h>

namespace tinwright {

/// Profiles are polygons in (y, z), given as Vec2: y from the front of the machine to its back with the nose
/// line at y = 0, z up. Bars and the beam are given with z = 0 at the top of the clamped sheet (for the beam:
/// at the bed's top with the machine closed on nothing); bed and leaf with z = 0 at the bed's top.
/// On a press brake y = 0 is where punch tip and V meet. Punches have z = 0 at the tip, dies at their top (all of a die
/// is at z <= 0), the ram at the punch's seat, the bed at the die's seat (all of the bed is at z <= 0).

/// The V of a die, whose middle is at y = 0.
struct Vee {
    double opening_mm = 0;  ///< between the lines where its flanks, were they not rounded, would meet the die's top
    Angle angle;            ///< between the flanks, under 180 degrees
    double shoulder_radius_mm = 0;  ///< between top and flank
    friend bool operator==(const Vee&, const Vee&) = default;
};

/// The tip of a punch segment that reaches past its body at one end, so that what stands there clears the body.
struct Horn {
    double reach_mm = 0;   ///< of the tip past the body
    double height_mm = 0;  ///< the tip is full wide up to here, all over it is cut back
    bool at_left = true;   ///< at the segment's left end, else at its right
    friend bool operator==(const Horn&, const Horn&) = default;
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

/// What a piece of tooling is on its brake.
enum class ToolRow {
    kUpper,  ///< over the sheet: bars and fingers of a leaf brake, punch segments of a press brake
    kDie,    ///< under it, on a press brake
};

/// A kind of bar (or finger, punch segment, die) the shop owns, and how many pieces of it.
struct Bar {
    std::string id;
    double width_mm = 0;              ///< along the machine
    double clamp_depth_mm = 0;        ///< nose to back, on the sheet; punches and dies have none
    double height_mm = 0;             ///< tip to seat, die top to seat
    Polygon profile;                  ///< its section, simple, not always convex; nose line at y = 0, z >= 0
    double end_relief_mm = 0;         ///< how far both lower end corners are cut back along the machine
    double end_relief_height_mm = 0;  ///< up to this height over the sheet
    int count = 1;
    ToolRow row = ToolRow::kUpper;
    double tip_radius_mm = 0;  ///< of a punch
    std::optional<Horn> horn;  ///< of a punch
    std::optional<Vee> vee;    ///< dies have one, nothing else has
    std::optional<Jaw> jaw;    ///< of a die
    double max_kn_per_m = 0;   ///< force that a punch or die may take; 0: not said
};

/// Bars that differ in nothing but their width: they stand in one string as one kind.
[[nodiscard]] bool sameSection(const Bar& a, const Bar& b);

/// How far the leaf's face reaches out from its hinge, and how thick the leaf is there.
struct LeafFace {
    std::string name;  ///< "full", "narrow", ...; the first one listed is the usual one
    double reach_mm = 0;
    double thickness_mm = 0;
};

/// What stands over the bars: a block from (front_y_mm, height_mm) up and back without end.
struct Beam {
    double height_mm = 0;   ///< underside over the sheet when clamped
    double front_y_mm = 0;  ///< its front face, behind the nose line when positive
};

/// How the bars are held.
enum class ClampKind {
    kLooseBars,  ///< bars are laid on by hand and lift off freely (magnetic folder)
    kOnBeam,     ///< fingers or a bar hang on a beam that lifts by `opening_mm`
};

/// Greatest sheet the brake is rated for.
struct Rating {
    std::string material;
    double thickness_mm = 0;
    double length_mm = 0;
};

/// The fingers that gauge a sheet from behind a press brake.
struct BackGauge {
    double nearest_mm = 0;  ///< from the bend line to the stop, at the least
    double furthest_mm = 0;
    double finger_width_mm = 0;   ///< along the machine
    double finger_height_mm = 0;  ///< of the face that the sheet lies against
    double lowest_mm = 0;         ///< underside of the fingers over the dies' seat (negative: under it), at the least
    double highest_mm = 0;        ///< and at the most
};

/// How a press brake makes its bends.
enum class PressMode {
    kAirBending,  ///< the sheet lies on the shoulders of the V and under the tip only: the V's opening makes the
                  ///< radius, the stroke the angle
    kBottoming,   ///< it is pressed into the V: the tip makes the radius, the V's flanks the angle
};

/// What a press brake has besides punches and dies.
struct Press {
    Polygon ram;                ///< what the punches hang on: section, z = 0 at their seat, simple
    double open_height_mm = 0;  ///< punch seat to die seat with the ram up
    double stroke_mm = 0;       ///< of the ram
    double throat_mm = 0;       ///< from the bend line back to the side frames; 0: nothing stands there
    double frames_left_mm = 0;  ///< inside faces of the side frames, in machine x
    double frames_right_mm = 0;
    double force_kn = 0;
    PressMode mode = PressMode::kAirBending;
    double bottoming_factor = 5;  ///< kBottoming: force over that of the air bend in the same V. Common practice: 3 to
                                  ///< 5
    std::optional<BackGauge> gauge;
    std::optional<Vee> vee;  ///< the one that it is used with (inVee); none: not chosen yet
};

/// How far bends are swung or pressed past their angle, for springback.
struct Overbend {
    double default_deg = 3.0;                       ///< FAA leaf-brake figure: set 93° to get 90°
    std::map<std::string, double> by_material_deg;  ///< by material id, for any target angle
    [[nodiscard]] double of_deg(const std::string& material) const;
};

/// A machine that folds. A leaf brake clamps the sheet under bars and swings a leaf up; a press brake, which has
/// `press`, pushes it with a punch into a V: punches and dies are its bars, the highest of `bed` is the seat of the
/// dies, the nose radius is that of the bend in the V that is used (inVee), and leaf, setback, hinge, beam, clamp and
/// opening mean nothing. Does not change once made.
struct Brake {
    std::string name;
    std::string description;
    double length_mm = 0;  ///< of bed and leaf, along the machine
    std::vector<Rating> ratings;
    Angle max_leaf_angle = Angle::degrees(135);
    std::vector<LeafFace> leaf_faces;  ///< at least one
    double nose_radius_mm = 0;         ///< shared by all bars of this brake: the radius that bends take
    double setback_mm = -1;            ///< nose line to hinge; negative: one sheet thickness
    double hinge_height_mm = 0;        ///< hinge over the bed's top
    Polygon bed;                       ///< section, simple; top at z = 0, y = 0 at the hinge line (not the nose)
    bool has_beam = false;
    Beam beam;
    ClampKind clamp = ClampKind::kLooseBars;
    double opening_mm = 0;            ///< lift of the beam (kOnBeam)
    bool pieces_out_in_place = true;  ///< pieces can be loosened and taken out singly with the part in the brake
    double hem_thickness_mm = 0;  ///< of a leaf brake: the thickest sheet whose hems its clamp closes; 0: none, or not
                                  ///< said
    bool overhang_left = true;    ///< a part may hang past this end (no end frame)
    bool overhang_right = true;
    std::vector<Bar> bars;
    std::optional<Overbend> overbend;  ///< of this machine; none: the shop's
    std::optional<Press> press;        ///< none: a leaf brake
    /// Figures that the shop file says nobody has measured, as JSON pointers into the brake with bars named by id
    /// ("/opening", "/bars/B30/height"; "/bars/*/height" when it is so for every bar; a press brake has "/punches/..."
    /// and "/dies/..."). In the file's order.
    std::vector<std::string> uncertain;

    [[nodiscard]] bool isPress() const { return press.has_value(); }
    [[nodiscard]] double setbackFor_mm(double thickness_mm) const { return setback_mm < 0 ? thickness_mm : setback_mm; }
};

/// Machines that hurt in different ways.
enum class MachineKind {
    kLooseBarFolder,  ///< bars lie on the bed, held by magnets
    kBeamFolder,      ///< bars or fingers hang on a beam
    kPressBrake,
};
[[nodiscard]] MachineKind kindOf(const Brake& brake);

/// The Vs of the dies that a press brake has, by opening, then angle, then shoulder.
[[nodiscard]] std::vector<Vee> veesOf(const Brake& brake);

/// The press brake as it is used with one V: of dies with another, and of punches whose tip is rounder than
/// `radius_mm`, the free inside radius in that V, there are none (count 0); the nose radius is `radius_mm`. Where every
/// punch is rounder it is the least of their tips.
[[nodiscard]] Brake inVee(const Brake& brake, const Vee& vee, double radius_mm);

/// What the shop allows, in mm and degrees.
struct Limits {
    double bar_gap_mm = 4.0;        ///< largest gap between neighbouring bars over the bend
    double uncovered_end_mm = 5.0;  ///< bend length past the last bar, at each end
    double clamped_land_mm = 6.0;   ///< least depth of sheet behind the nose line
    double clearance_mm = 0.5;      ///< wanted between things that must not touch; less is `tight`
    double plus_side_mm = 0.3;      ///< an inside width must be at least this much more than its bars
};

/// What handling costs, in milliseconds of shop time.
struct Times {
    long long hem_ms = 30'000;          ///< close hems after their fold: take the part round, press, take it out
    long long fold_ms = 20'000;         ///< one stroke: clamp, swing, return
    long long gauge_ms = 15'000;        ///< set the sight line under the nose, per fold
    long long gauge_formed_ms = 5'000;  ///< press brakes, extra for each formed bend between what lies against the back
                                        ///< gauge and the bend
    long long gauge_sight_ms = 30'000;  ///< press brakes with a back gauge, extra when nothing lies against it: scribe
                                        ///< a sight line and set by it
    long long piece_ms = 20'000;        ///< put in or take out one bar
    long long leaf_face_ms = 60'000;    ///< change the leaf's face
    long long turn_ms = 8'000;          ///< turn the part in the plane of the bed
    long long flip_ms = 12'000;         ///< turn the other face up
    long long carry_ms = 180'000;       ///< carry the part to another brake and take it up there
    long long way_out_ms = 30'000;      ///< extra when parts or bars do not simply lift away
};

/// One brake owner's shop. Does not change once made.
struct Shop {
    std::string name;
    std::vector<Brake> brakes;
    Limits limits;
    Times times;
    Tolerances tolerances;
    Overbend overbend;               ///< of brakes that have none of their own
    MeasuredBends measured_bends;    ///< the shop's own test strips
    std::optional<Cutting> cutting;  ///< how it cuts its blanks; none: not said

    [[nodiscard]] const Overbend& overbendOf(const Brake& brake) const {
        return brake.overbend ? *brake.overbend : overbend;
    }
    [[nodiscard]] double overbendFor_deg(const std::string& material, const Brake& brake) const {
        return overbendOf(brake).of_deg(material);
    }
    /// The shop's tolerances as they bear on a part.
    [[nodiscard]] ToleranceBox tolerancesFor(const Part& part) const;
};

}  // namespace tinwright
