// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <tinwright/base/result.h>

/// A part started from the component that it must hold: its recipe, with names and locks set.
///
///     StartChoice choice;
///     choice.shape = StartShape::kTray;
///     choice.component_mm = {60, 40, 25};
///     Result<std::string> recipe = startPart(choice);   // then readRecipe(recipe.value(), "tray")
///
/// What mates with the component is measured inside and locked: component and fit gaps, no more and no less. To suit it
/// to bars, widen the gaps and start again. What is left to the bench (wall heights over a least one, tabs, corners) is
/// named and not locked.
namespace tinwright {

enum class StartShape {
    kHousing,     ///< cover with four walls, and tabs turned out at the ends of some
    kTray,        ///< four walls, no tabs
    kChannel,     ///< web and two legs, lips turned in when asked for
    kHat,         ///< web, two legs and two feet turned out
    kBracket,     ///< seat and one upright behind it
    kWindowFace,  ///< face with a window or the hole of a boss, four walls behind it
};

/// What is made of the corners where two walls of a box meet.
enum class StartCorners {
    kOpen,  ///< a gap, both ends slanted, so that the walls may be folded in any order
    kWeld,  ///< butt, square, as tight as is welded without filler: no wall passes through the place of another
};

/// A side of the component as it stands, its front towards the person.
enum class ComponentSide { kBottom, kTop, kFront, kBack, kLeft, kRight };

/// Where an opening lies on the component's face, seen from outside with the component's front (under an upright face:
/// its bottom) towards the person; a face underneath is seen through the component, from above.
struct FacePoint {
    double from_left_mm = 0;
    double from_lower_mm = 0;
};

/// A window shows or lets through what lies behind it: cut to size. Its place is that of its left and lower sides.
struct StartWindow {
    double width_mm = 0;          ///< left to right
    double height_mm = 0;         ///< from its lower side
    std::optional<FacePoint> at;  ///< none: in the middle
};

/// Something round that sticks out of the component: its hole is wider by a fit gap all round. Its place is that of its
/// centre.
struct StartBoss {
    double diameter_mm = 0;
    std::optional<FacePoint> at;
};

/// All lengths in mm, whatever the file's units. What is left out has a default that follows from sheet and radius
/// (start_sizes.h).
struct StartChoice {
    StartShape shape = StartShape::kTray;
    std::string name;     ///< of the part; empty: the shape's
    bool inches = false;  ///< units of the file

    std::array<double, 3> component_mm{};         ///< width (left to right), depth (front to back), height
    std::array<double, 3> gap_mm{0.5, 0.5, 0.5};  ///< fit gap on each side across, front and back; once in height

    std::string material = "mild-steel";
    std::optional<double> thickness_mm;      ///< 1.5
    std::optional<double> inside_radius_mm;  ///< 1
    std::string radius_from;                 ///< what gives that radius, for the notes; empty: nothing is said
    std::optional<double> k;                 ///< 0.44

    std::optional<ComponentSide> open;           ///< housing, tray, window-face: opposite the base
    StartCorners corners = StartCorners::kOpen;  ///< housing, tray, window-face
    std::optional<StartWindow> window;
    std::optional<StartBoss> boss;
    std::optional<double> inside_height_mm;  ///< of walls and legs; at least the component's height and its gap

    std::optional<std::vector<ComponentSide>> fix;  ///< housing, window-face: the walls with tabs
    std::optional<int> fixings;  ///< tabs on each of those walls; holes in each foot or in the upright
    std::optional<double> tab_length_mm;
    std::optional<double> tab_width_mm;
    std::optional<double> screw_mm;    ///< diameter of the hole; 0: none
    std::optional<double> lip_mm;      ///< channel: turned in over the component
    std::optional<double> foot_mm;     ///< hat
    std::optional<double> upright_mm;  ///< bracket, inside
};

/// Words for shapes and sides: "housing", "tray", "channel", "hat", "bracket", "window-face"; "bottom", "top", "front",
/// "back", "left", "right".
[[nodiscard]] std::string_view toText(StartShape shape);
[[nodiscard]] std::string_view toText(ComponentSide side);
[[nodiscard]] std::optional<StartShape> startShapeNamed(std::string_view word);
[[nodiscard]] std::optional<ComponentSide> componentSideNamed(std::string_view word);

/// The recipe as text of the format "tinwright-part/1". It has been read back and developed.
/// All issues at once, without file; `place` is the word of the choice ("component", "tab-length"): "start.unused" when
/// the shape does not use it, "start.missing", "start.range", "start.text", "start.fix", "start.room" when it does not
/// fit with the rest.
[[nodiscard]] Result<std::string> startPart(const StartChoice& choice);

}  // namespace tinwright
