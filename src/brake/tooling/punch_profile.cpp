// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/tooling/punch_profile.h>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include <tinwright/base/contract.h>

#include "tooling/arc_corners.h"

namespace tinwright {

namespace {

constexpr double kThinnestPunch_mm = 0.01;  // less is a slip of the pen
constexpr double kLeastSteel_mm = 1.0;      // between a throat and the back

double halfAngle_rad(const PunchSection& punch) { return punch.tip_angle.rad() / 2; }

// Where the flanks would meet, were the tip not rounded: at 0 or below.
double apex_mm(const PunchSection& punch) { return punch.tip_radius_mm * (1 - 1 / std::sin(halfAngle_rad(punch))); }

// Where a flank leaves the arc.
double arcTop_mm(const PunchSection& punch) { return punch.tip_radius_mm * (1 - std::sin(halfAngle_rad(punch))); }

// Height at which a flank is `out_mm` away from the tip's plane, and the other way round.
double flankHeight_mm(const PunchSection& punch, double out_mm) {
    return apex_mm(punch) + out_mm / std::tan(halfAngle_rad(punch));
}
double flankOut_mm(const PunchSection& punch, double z_mm) {
    return (z_mm - apex_mm(punch)) * std::tan(halfAngle_rad(punch));
}

double front_mm(const PunchSection& punch) { return punch.body_width_mm / 2; }

double back_mm(const PunchSection& punch) {
    return punch.throat ? std::max(front_mm(punch), punch.throat->depth_mm + punch.throat->neck_mm) : front_mm(punch);
}

double deepestFrom_mm(const PunchThroat& throat) {
    return throat.deepest_from_mm.value_or((throat.from_mm + throat.to_mm) / 2);
}
double deepestTo_mm(const PunchThroat& throat) { return throat.deepest_to_mm.value_or(deepestFrom_mm(throat)); }

// From the front flank round to the back flank; the middle edge lies exactly in z = 0.
Polygon tipCorners(const PunchSection& punch) {
    if (punch.tip_radius_mm <= 0) return {Vec2(0, 0)};
    const double half_rad = halfAngle_rad(punch);
    Polygon corners = arcCorners(Vec2(0, punch.tip_radius_mm), punch.tip_radius_mm, std::numbers::pi + half_rad,
                                 std::numbers::pi - 2 * half_rad);
    corners[corners.size() / 2 - 1].y() = corners[corners.size() / 2].y() = 0;
    return corners;
}

bool allFinite(const PunchSection& punch) {
    const PunchThroat throat = punch.throat.value_or(PunchThroat{});
    const double numbers[] = {punch.tip_angle.rad(), punch.tip_radius_mm, punch.height_mm, punch.body_width_mm,
                              throat.depth_mm,       throat.from_mm,      throat.to_mm,    deepestFrom_mm(throat),
                              deepestTo_mm(throat),  throat.neck_mm};
    return std::all_of(std::begin(numbers), std::end(numbers), [](double number) { return std::isfinite(number); });
}

std::string whyNoHeights(const PunchSection& punch, const PunchThroat& throat) {
    if (throat.from_mm < arcTop_mm(punch) + kThinnestPunch_mm)
        return fmt::format("a throat that begins over the tip's arc, which ends {:.2f} mm up", arcTop_mm(punch));
    if (throat.to_mm > punch.height_mm)
        return fmt::format("a throat that ends below the seat, {:g} mm up", punch.height_mm);
    if (deepestFrom_mm(throat) < throat.from_mm + kThinnestPunch_mm || deepestTo_mm(throat) < deepestFrom_mm(throat) ||
        throat.to_mm < deepestTo_mm(throat) + kThinnestPunch_mm)
        return "heights of a throat that rise: where it begins, is deepest from, is deepest to, ends";
    const double flank_end_mm = flankHeight_mm(punch, front_mm(punch));
    if (throat.to_mm < flank_end_mm)
        return fmt::format("a throat that ends over the front flank, which ends {:.2f} mm up", flank_end_mm);
    return {};
}

// The steel behind the hollow is thinnest at one of its corners, since the back is nowhere hollow.
std::string whyNoThroat(const PunchSection& punch, const PunchThroat& throat) {
    std::string why = whyNoHeights(punch, throat);
    if (!why.empty()) return why;
    const double front_end_mm = -std::min(front_mm(punch), flankOut_mm(punch, throat.from_mm));
    if (throat.depth_mm < front_end_mm + kThinnestPunch_mm)
        return fmt::format("a throat deeper than the front where it begins, which is at {:.2f} mm", front_end_mm);
    if (throat.neck_mm < kLeastSteel_mm) return fmt::format("a neck of {:g} mm or more", kLeastSteel_mm);
    const double flank_mm = flankOut_mm(punch, deepestFrom_mm(throat));
    if (flank_mm < throat.depth_mm + kLeastSteel_mm) {
        return fmt::format(
            "a throat that leaves steel in front of the back flank, which is only {:.2f} mm behind the tip at {:g} mm "
            "height "
            "(such a punch needs its section as a \"profile\")",
            flank_mm, deepestFrom_mm(throat));
    }
    return {};
}

// From where the hollow ends down to where it begins.
void addThroat(const PunchSection& punch, const PunchThroat& throat, Polygon& section) {
    if (throat.to_mm < punch.height_mm) section.emplace_back(-front_mm(punch), throat.to_mm);
    if (deepestTo_mm(throat) > deepestFrom_mm(throat)) section.emplace_back(throat.depth_mm, deepestTo_mm(throat));
    section.emplace_back(throat.depth_mm, deepestFrom_mm(throat));
    section.emplace_back(-std::min(front_mm(punch), flankOut_mm(punch, throat.from_mm)), throat.from_mm);
}

std::string whyNotAtOrigin(const Polygon& section, double tolerance_mm) {
    double low_mm = HUGE_VAL;
    for (const Vec2& point : section) low_mm = std::min(low_mm, point.y());
    if (std::abs(low_mm) > tolerance_mm) return fmt::format("a tip at z = 0, not at {:.3f} mm", low_mm);
    double front_mm = HUGE_VAL;
    double back_mm = -HUGE_VAL;
    for (const Vec2& point : section) {
        if (point.y() > tolerance_mm) continue;
        front_mm = std::min(front_mm, point.x());
        back_mm = std::max(back_mm, point.x());
    }
    if (front_mm <= tolerance_mm && back_mm >= -tolerance_mm) return {};
    return fmt::format("a tip at y = 0, not from {:.3f} to {:.3f} mm", front_mm, back_mm);
}

// Under the arc's centre there is the bent sheet: what sticks out there would press into every bend.
std::string whyTooBlunt(const Polygon& section, double tip_radius_mm, double tolerance_mm) {
    const Vec2 centre(0, tip_radius_mm);
    // To 30° each way, which a bend of 60° turns through: tips of up to 120° have their arc all over that.
    const double down_mm = tip_radius_mm + 1;
    const double side_mm = down_mm / std::numbers::sqrt3;
    const Polygon below{centre, centre + Vec2(-side_mm, -down_mm), centre + Vec2(side_mm, -down_mm)};
    for (const Region& piece : intersection(Region{section, {}}, below)) {
        for (const Vec2& point : piece.outline) {
            const double excess_mm = (point - centre).norm() - tip_radius_mm;
            if (excess_mm <= tolerance_mm) continue;
            return fmt::format("a tip within the radius of {:.3f} mm; at ({:.3f}, {:.3f}) it sticks out by {:.3f} mm",
                               tip_radius_mm, point.x(), point.y(), excess_mm);
        }
    }
    return {};
}

// Steel where the arc's points 30° to each side are.
std::string whyTooSharp(const Polygon& section, double tip_radius_mm, double tolerance_mm) {
    const double reach_mm = tip_radius_mm - 2 * tolerance_mm;
    if (reach_mm <= 0) return {};
    for (const double side : {-0.5, 0.5}) {
        const Vec2 at = Vec2(0, tip_radius_mm) + reach_mm * Vec2(side, -std::numbers::sqrt3 / 2);
        const double half_mm = tolerance_mm / 10;
        const Polygon spot{at + Vec2(-half_mm, -half_mm), at + Vec2(half_mm, -half_mm), at + Vec2(half_mm, half_mm),
                           at + Vec2(-half_mm, half_mm)};
        if (!intersection(Region{section, {}}, spot).empty()) continue;
        return fmt::format("a tip not sharper than the radius of {:.3f} mm; there is no steel at ({:.3f}, {:.3f})",
                           tip_radius_mm, at.x(), at.y());
    }
    return {};
}

}  // namespace

std::string whyNoPunchSection(const PunchSection& punch) {
    if (!allFinite(punch)) return "finite numbers";
    if (punch.tip_angle.deg() < 5 || punch.tip_angle.deg() > 170) return "a tip angle of 5 to 170 degrees";
    if (punch.tip_radius_mm != 0 && punch.tip_radius_mm < kThinnestPunch_mm)
        return fmt::format("a tip radius of 0, or of {:g} mm or more", kThinnestPunch_mm);
    const double arc_out_mm = punch.tip_radius_mm * std::cos(halfAngle_rad(punch));
    if (front_mm(punch) < arc_out_mm + kThinnestPunch_mm)
        return fmt::format("a body wider than the tip's arc, which is {:.2f} mm wide", 2 * arc_out_mm);
    const double flank_end_mm = flankHeight_mm(punch, back_mm(punch));
    if (punch.height_mm < flank_end_mm + kThinnestPunch_mm)
        return fmt::format("a height over the end of the flanks, which is {:.2f} mm up (or a narrower body)",
                           flank_end_mm);
    return punch.throat ? whyNoThroat(punch, *punch.throat) : std::string();
}

Polygon punchSection(const PunchSection& punch) {
    TINWRIGHT_REQUIRE(whyNoPunchSection(punch).empty(), "a section can be made of these numbers");
    Polygon section = tipCorners(punch);
    section.emplace_back(back_mm(punch), flankHeight_mm(punch, back_mm(punch)));
    section.emplace_back(back_mm(punch), punch.height_mm);
    section.emplace_back(-front_mm(punch), punch.height_mm);
    if (punch.throat) addThroat(punch, *punch.throat, section);
    const double flank_end_mm = flankHeight_mm(punch, front_mm(punch));
    if (!punch.throat || punch.throat->from_mm > flank_end_mm) section.emplace_back(-front_mm(punch), flank_end_mm);
    return section;
}

std::string whyNoPunch(const Polygon& section, double tip_radius_mm, double tolerance_mm) {
    std::string why;
    if (!isValid(Region{section, {}}, &why)) return "a polygon that does not cross itself (" + why + ")";
    why = whyNotAtOrigin(section, tolerance_mm);
    if (why.empty() && tip_radius_mm > 0) why = whyTooBlunt(section, tip_radius_mm, tolerance_mm);
    return why.empty() && tip_radius_mm > 0 ? whyTooSharp(section, tip_radius_mm, tolerance_mm) : why;
}

}  // namespace tinwright
