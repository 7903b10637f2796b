// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

#include <tinwright/base/angle.h>
#include <tinwright/geometry/planar.h>

/// Sections of bars and fingers made from the few numbers that a person measures at the bench.
///
/// Frame of a bar's profile: Vec2 is (y, z); y from the nose line back, z from the sheet's top up. The nose arc has
/// its centre at (radius, radius), so that y = 0 is its front and z = 0 its underside; the clamping face is z = 0
/// from y = radius to the clamp depth, and the front face leaves the arc tangentially, going up and back.
namespace tinwright {

/// How far the vertices that stand in for the nose arc lie outside it at most. They never lie inside: a bar is never
/// taken thinner than it is.
inline constexpr double kNoseArcError_mm = 0.005;

/// What is measured on a bar.
struct NoseSection {
    Angle nose_angle;                      ///< between clamping face and front face, 0 < angle <= 90 degrees
    double radius_mm = 0;                  ///< of the nose, 0: sharp
    double clamp_depth_mm = 0;             ///< nose to back, on the sheet
    double height_mm = 0;                  ///< over the sheet
    std::optional<double> toe_height_mm;   ///< fingers: the front face goes up to here, then a shank goes straight up
    std::optional<double> shank_front_mm;  ///< y of the shank's front; absent: where the front face ends
};

/// Why no section can be made of these numbers, in words for the person who measured; empty when one can.
/// Limits: finite numbers; radius below clamp depth and height; the front face must end before the bar's back.
[[nodiscard]] std::string whyNoSection(const NoseSection& nose);

/// The section as a simple counter-clockwise polygon. A bar whose front face would meet its back before its height
/// is an error that whyNoSection tells; calling this on it is a programmer's error.
[[nodiscard]] Polygon barSection(const NoseSection& nose);

/// Why a section that was given point by point cannot be the section of a bar with this nose radius; empty when it can:
/// it is simple, lies in y >= 0, z >= 0, touches both axes' lines, and fills neither more nor much less of the corner
/// at the nose than an arc of that radius, each to `tolerance_mm`.
[[nodiscard]] std::string whyNoBar(const Polygon& section, double nose_radius_mm, double tolerance_mm = 0.02);

/// The section with all behind `depth_mm` and all over `height_mm` milled off. Nothing when what is left is no section
/// of a bar with this nose radius: in two pieces, or without its nose.
[[nodiscard]] std::optional<Polygon> milledSection(const Polygon& section, double nose_radius_mm, double depth_mm,
                                                   double height_mm);

/// Where the clamping face (z = 0) of a section ends at the back. Precondition: whyNoBar is empty.
[[nodiscard]] double clampDepth_mm(const Polygon& section);

/// The highest z of a section.
[[nodiscard]] double height_mm(const Polygon& section);

}  // namespace tinwright
