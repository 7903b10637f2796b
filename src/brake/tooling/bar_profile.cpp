// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/tooling/bar_profile.h>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include <tinwright/base/contract.h>

#include "tooling/arc_corners.h"

namespace tinwright {

namespace {

constexpr double kThinnestBar_mm = 0.01;  // a land or a top thinner than this is a slip of the pen

// Unit vectors of the front face: along it (up and back), and out of it.
struct FrontFace {
    Vec2 along;
    Vec2 outward;
};

FrontFace frontFace(Angle nose_angle) {
    const SinCos turn = sinCos(nose_angle);
    return {Vec2(turn.cos, turn.sin), Vec2(-turn.sin, turn.cos)};
}

// y of the front face's line at height z.
double frontAt_mm(const NoseSection& nose, double z_mm) {
    const FrontFace face = frontFace(nose.nose_angle);
    const Vec2 touch = Vec2(nose.radius_mm, nose.radius_mm) + nose.radius_mm * face.outward;
    return touch.x() + (z_mm - touch.y()) * face.along.x() / face.along.y();
}

double toeHeight_mm(const NoseSection& nose) { return nose.toe_height_mm.value_or(nose.height_mm); }

// From the front face round to the clamping face: the arc turns through 180° - nose angle.
Polygon noseCorners(const NoseSection& nose) {
    if (nose.radius_mm <= 0) return {Vec2(0, 0)};
    const double turn_rad = std::numbers::pi - nose.nose_angle.rad();
    const int parts = arcParts(nose.radius_mm, turn_rad);
    const double half_rad = turn_rad / (2 * parts);
    const double reach_mm = nose.radius_mm / std::cos(half_rad);
    Polygon corners;
    for (int i = parts - 1; i >= 0; --i) {
        const double from_down_rad = (2 * i + 1) * half_rad;  // turned from straight down towards the front
        const Vec2 corner(nose.radius_mm - reach_mm * std::sin(from_down_rad),
                          nose.radius_mm - reach_mm * std::cos(from_down_rad));
        corners.push_back(i == 0 ? Vec2(corner.x(), 0.0) : corner);  // exactly on the clamping face
    }
    return corners;
}

bool allFinite(const NoseSection& nose) {
    return std::isfinite(nose.nose_angle.rad()) && std::isfinite(nose.radius_mm) &&
           std::isfinite(nose.clamp_depth_mm) && std::isfinite(nose.height_mm) && std::isfinite(toeHeight_mm(nose)) &&
           std::isfinite(nose.shank_front_mm.value_or(0));
}

std::string whyNoShank(const NoseSection& nose) {
    const double face_end_mm = frontAt_mm(nose, toeHeight_mm(nose));
    if (face_end_mm > nose.clamp_depth_mm - kThinnestBar_mm) {
        return fmt::format(
            "a front face that ends before the bar's back (it meets the back, {:g} mm deep, below {:g} mm height)",
            nose.clamp_depth_mm, toeHeight_mm(nose));
    }
    if (!nose.shank_front_mm) return {};
    if (!nose.toe_height_mm) return "a toe height when the shank's front is given";
    if (*nose.shank_front_mm < face_end_mm || *nose.shank_front_mm > nose.clamp_depth_mm - kThinnestBar_mm) {
        return fmt::format("a shank front between {:.2f} mm, where the front face ends, and the clamp depth",
                           face_end_mm);
    }
    return {};
}

std::string whyMisplaced(const Polygon& section, double nose_radius_mm, double tolerance_mm) {
    double front_mm = HUGE_VAL;
    double low_mm = HUGE_VAL;
    double clamped_front_mm = HUGE_VAL;
    for (const Vec2& point : section) {
        front_mm = std::min(front_mm, point.x());
        low_mm = std::min(low_mm, point.y());
        if (point.y() <= tolerance_mm) clamped_front_mm = std::min(clamped_front_mm, point.x());
    }
    if (std::abs(front_mm) > tolerance_mm)
        return fmt::format("its front at y = 0 (the nose line), not at {:.3f} mm", front_mm);
    if (std::abs(low_mm) > tolerance_mm)
        return fmt::format("its underside at z = 0 (the sheet's top), not at {:.3f} mm", low_mm);
    if (clamped_front_mm <= nose_radius_mm + tolerance_mm) return {};
    return fmt::format(
        "a clamping face (z = 0) that begins no further back than the nose radius, {:.3f} mm, not at {:.3f} mm",
        nose_radius_mm, clamped_front_mm);
}

// In front of the arc and below its centre there is the bent sheet: what sticks out there would press into every bend.
std::string whyInTheBend(const Polygon& section, double nose_radius_mm, double tolerance_mm) {
    const Vec2 centre(nose_radius_mm, nose_radius_mm);
    const Polygon corner{Vec2(-1, -1), Vec2(centre.x(), -1), centre, Vec2(-1, centre.y())};
    for (const Region& piece : intersection(Region{section, {}}, corner)) {
        for (const Vec2& point : piece.outline) {
            const double excess_mm = (point - centre).norm() - nose_radius_mm;
            if (excess_mm <= tolerance_mm) continue;
            return fmt::format("a nose within the radius of {:.3f} mm; at ({:.3f}, {:.3f}) it sticks out by {:.3f} mm",
                               nose_radius_mm, point.x(), point.y(), excess_mm);
        }
    }
    return {};
}

}  // namespace

std::string whyNoSection(const NoseSection& nose) {
    if (!allFinite(nose)) return "finite numbers";
    if (nose.nose_angle.deg() < 1 || nose.nose_angle.deg() > 90 + 1e-9) return "a nose angle of 1 to 90 degrees";
    if (nose.radius_mm < 0) return "a nose radius of 0 or more";
    if (nose.clamp_depth_mm <= nose.radius_mm + kThinnestBar_mm) return "a clamp depth greater than the nose radius";
    // Up to here the arc reaches; above it the front face begins.
    const double arc_top_mm = nose.radius_mm * (1 + frontFace(nose.nose_angle).outward.y());
    if (toeHeight_mm(nose) <= arc_top_mm + kThinnestBar_mm) {
        return fmt::format("a height of the front face above the nose arc, which ends {:.2f} mm up", arc_top_mm);
    }
    if (toeHeight_mm(nose) > nose.height_mm) return "a toe height no greater than the height";
    return whyNoShank(nose);
}

Polygon barSection(const NoseSection& nose) {
    TINWRIGHT_REQUIRE(whyNoSection(nose).empty(), "a section can be made of these numbers");
    Polygon section = noseCorners(nose);
    section.push_back(Vec2(nose.clamp_depth_mm, 0));
    section.push_back(Vec2(nose.clamp_depth_mm, nose.height_mm));
    const double toe_mm = toeHeight_mm(nose);
    const double face_end_mm = frontAt_mm(nose, toe_mm);
    const double shank_mm = nose.shank_front_mm.value_or(face_end_mm);
    if (toe_mm < nose.height_mm) section.push_back(Vec2(shank_mm, nose.height_mm));
    if (shank_mm > face_end_mm) section.push_back(Vec2(shank_mm, toe_mm));
    section.push_back(Vec2(face_end_mm, toe_mm));
    return section;
}

std::string whyNoBar(const Polygon& section, double nose_radius_mm, double tolerance_mm) {
    std::string why;
    if (!isValid(Region{section, {}}, &why)) return "a polygon that does not cross itself (" + why + ")";
    why = whyMisplaced(section, nose_radius_mm, tolerance_mm);
    return why.empty() && nose_radius_mm > 0 ? whyInTheBend(section, nose_radius_mm, tolerance_mm) : why;
}

std::optional<Polygon> milledSection(const Polygon& section, double nose_radius_mm, double depth_mm, double height_mm) {
    const std::vector<Region> left =
        intersection({section, {}}, {Vec2(-1, -1), Vec2(depth_mm, -1), Vec2(depth_mm, height_mm), Vec2(-1, height_mm)});
    if (left.size() != 1 || !left[0].holes.empty() || !whyNoBar(left[0].outline, nose_radius_mm).empty())
        return std::nullopt;
    return left[0].outline;
}

double clampDepth_mm(const Polygon& section) {
    double depth_mm = 0;
    for (const Vec2& point : section) {
        if (point.y() <= 0.02) depth_mm = std::max(depth_mm, point.x());
    }
    return depth_mm;
}

double height_mm(const Polygon& section) {
    double high_mm = 0;
    for (const Vec2& point : section) high_mm = std::max(high_mm, point.y());
    return high_mm;
}

}  // namespace tinwright
