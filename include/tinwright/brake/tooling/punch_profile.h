// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

#include <tinwright/base/angle.h>
#include <tinwright/brake/tooling/bar_profile.h>
#include <tinwright/geometry/planar.h>

/// Sections of press-brake punches made from the few numbers that a person measures at the bench.
///
/// Frame of a punch's profile: Vec2 is (y, z); the tip is at (0, 0), y goes to the back of the machine, z up to the
/// punch's seat. The tip's arc has its centre at (0, radius), so that it touches z = 0 at y = 0; both flanks leave it
/// tangentially, half the tip angle from upright. The corners that stand in for the arc lie outside it, by
/// kNoseArcError_mm at most: a punch is never taken thinner than it is.
///
///     PunchSection punch{.tip_angle = Angle::degrees(88), .tip_radius_mm = 0.8, .height_mm = 65, .body_width_mm = 16,
///     .throat = {}}; if (whyNoPunchSection(punch).empty()) Polygon section = punchSection(punch);
namespace tinwright {

/// The hollow in the front of a gooseneck, into which the leg of a channel swings. Heights are over the tip. Between
/// the points that are said its faces are taken as straight, which makes the hollow no larger than it is as long as it
/// is rounded the hollow way.
struct PunchThroat {
    double depth_mm = 0;                    ///< how far its deepest lies behind the tip (y)
    double from_mm = 0;                     ///< where the front flank, or the body over it, ends and the hollow begins
    double to_mm = 0;                       ///< where it ends and the body is in front again
    std::optional<double> deepest_from_mm;  ///< it is deepest from here; absent: half way up
    std::optional<double> deepest_to_mm;    ///< up to here; absent: only where it gets deepest
    double neck_mm = 0;                     ///< thickness of the steel behind its deepest
};

/// What is measured on a punch. Straight and acute punches differ in tip angle and height only; a gooseneck has a
/// throat.
struct PunchSection {
    Angle tip_angle;                    ///< between the flanks, 5 to 170 degrees
    double tip_radius_mm = 0;           ///< 0: sharp
    double height_mm = 0;               ///< tip to seat
    double body_width_mm = 0;           ///< front to back over the flanks; the tip is in its middle
    std::optional<PunchThroat> throat;  ///< the back then stands as far behind the tip as the neck does, up to the seat
};

/// What was expected instead of these numbers, in words for the person who measured; empty when a section can be made
/// of them. Limits: finite numbers; a tip radius of 0 or at least 0.01 mm; flanks that end below the seat; a throat
/// that leaves 1 mm of steel everywhere.
[[nodiscard]] std::string whyNoPunchSection(const PunchSection& punch);

/// The section as a simple counter-clockwise polygon. Calling this on numbers that whyNoPunchSection finds fault with
/// is a programmer's error.
[[nodiscard]] Polygon punchSection(const PunchSection& punch);

/// Why a section that was given point by point cannot be that of a punch with this tip radius; empty when it can: it is
/// simple, has its lowest point at (0, 0), and up to 30 degrees to each side under the tip's centre it fills an arc of
/// that radius and no more, each to `tolerance_mm` or twice that.
[[nodiscard]] std::string whyNoPunch(const Polygon& section, double tip_radius_mm, double tolerance_mm = 0.02);

}  // namespace tinwright
