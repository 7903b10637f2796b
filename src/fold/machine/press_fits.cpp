// SPDX-License-Identifier: GPL-3.0-or-later
// Whether punches and dies suit a bend, by itself, and what keeps over the dies: PressMachine::fits, flatDepth and
// overDriven_mm.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "machine/press_machine.h"
#include "machine/vee_lap.h"

namespace tinwright {

namespace {

constexpr double kLeastLift_mm = 3;  // to get the sheet in at all
}  // namespace

FlatDepth PressMachine::flatDepth(const BendMotions& motions, double) const {
    const double depth_mm = bearing_.leastFlat_mm(motions.half.set_rad(), motions.half.allowance_mm());
    return {depth_mm, depth_mm};
}

double PressMachine::overDriven_mm(const DrivenView& group, const BendMotions& motions,
                                   const std::vector<Vec3>& corners) const {
    return group.rises ? overDies_mm(group.moving, motions, corners) : 0.0;
}

// Dies bear on either side of the sheet: what is over its lower face keeps over its own side's half of them, and off
// the other half where this says so (NOTES.md). A point f past the strip's end and g over the lower face is C_z + (g -
// C_z) cos 2h + f sin 2h over the other side's lower face at half angle h, or more: the strip's end is C_z sin h or
// more from the middle. Up to a right angle that is not under 0 where f is not; past it a point no higher than C_z
// stays C_z over it, and what is higher comes down all the time. What laps (f < 0) and is no higher than C_z is dealt
// with by lapClearance_mm.
double PressMachine::overDies_mm(bool moving, const BendMotions& motions, const std::vector<Vec3>& corners) const {
    const double angle_rad = motions.set_rad;
    const double centre_mm = centre_.y();
    double over_mm = kClearanceCap_mm;
    double lap_mm = 0;
    for (const Vec3& corner : corners) {
        const double past_mm = moving ? motions.strip_front_mm - corner.y() : corner.y() - motions.strip_back_mm;
        lap_mm = std::max(lap_mm, -past_mm);
        if (corner.z() <= centre_mm || (past_mm >= 0 && angle_rad <= 0.5 * std::numbers::pi)) continue;
        over_mm = std::min(over_mm, centre_mm + (corner.z() - centre_mm) * std::cos(angle_rad) +
                                        (past_mm < 0 ? past_mm : past_mm * std::sin(angle_rad)));
    }
    if (lap_mm <= kFlat_mm) return over_mm;
    // Corners of slices of arcs stand out under the sheet, and a section that was measured may have a little more steel
    // than its V (whyNoDie).
    constexpr double kRough_mm = 2 * kContactTolerance_mm + kArcSagitta_mm;
    return std::min(
        over_mm, lapClearance_mm({*brake_.vee(), vee_free_mm_, centre_mm, motions.half.set_rad()}, lap_mm) - kRough_mm);
}

bool PressMachine::fits(std::size_t family, std::size_t face, const BendMotions& motions,
                        const StripSlices& strip) const {
    return families_[family].row == ToolRow::kLower ? dieFits(family, face, motions, strip)
                                                    : punchFits(family, motions, strip);
}

bool PressMachine::dieFits(std::size_t family, std::size_t face, const BendMotions& how,
                           const StripSlices& strip) const {
    if (!bearing_.takes(how.half.set_rad())) return false;
    if (bearing_.bearing(how.half.set_rad(), how.half.allowance_mm()).least_mm <= 0) return false;
    if (lift_mm(face, how.rise_mm) < kLeastLift_mm) return false;
    // The die comes up all through the stroke while the strip's lowest stays where it is: they are nearest at the end.
    const Rigid pose = sideSwungBy(*this, how, false, how.set_rad);
    for (const Solid& slice : strip.at(Angle::radians(how.set_rad), pose)) {
        for (const Convex2& piece : bodies_[families_[family].high].section) {
            if (!apart(slice.section(), piece.moved(Vec2(0, how.rise_mm)))) return false;
        }
    }
    return true;
}

// The strip at the end of the stroke: before it, it is rounder. And no die that the punch goes into is met by it.
bool PressMachine::punchFits(std::size_t family, const BendMotions& how, const StripSlices& strip) const {
    const Rigid pose = sideSwungBy(*this, how, false, how.set_rad);
    const ToolFamily& punch = families_[family];
    std::vector<Convex2> sections = bodies_[punch.high].section;
    if (punch.low >= 0) {
        for (const Convex2& piece : bodies_[static_cast<std::size_t>(punch.low)].section) sections.push_back(piece);
    }
    for (const Solid& slice : strip.at(Angle::radians(how.set_rad), pose)) {
        if (std::any_of(sections.begin(), sections.end(),
                        [&](const Convex2& piece) { return !apart(slice.section(), piece); }))
            return false;
    }
    for (const ToolFamily& die : families_) {
        if (die.row != ToolRow::kLower) continue;
        for (const Convex2& piece : bodies_[die.high].section) {
            const Convex2 risen = sweptBy(piece.points(), Vec2(0, how.rise_mm));
            if (std::any_of(sections.begin(), sections.end(),
                            [&](const Convex2& section) { return !apart(section, risen); }))
                return false;
        }
    }
    return true;
}

}  // namespace tinwright
