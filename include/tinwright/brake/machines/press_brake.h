// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include <tinwright/brake/machines/tool.h>
#include <tinwright/geometry/planar.h>

namespace tinwright {

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
    /// The sheet lies on the shoulders of the V and under the tip only: the V's opening makes the radius, the stroke
    /// the
    /// angle.
    kAirBending,
    kBottoming,  ///< it is pressed into the V: the tip makes the radius, the V's flanks the angle
};

/// A press brake: it pushes the sheet with a punch into the V of a die. Profiles have y = 0 where punch tip and V meet;
/// the ram z = 0 at the punches' seat, the bed at the dies' seat (all of it is at z <= 0).
struct PressBrake {
    Polygon bed;                ///< section, simple; its highest is the seat of the dies
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
    std::vector<Punch> punches;
    std::vector<Die> dies;  ///< at least one
};

}  // namespace tinwright
