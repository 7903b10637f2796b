// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/machines/leaf_on_sheet.h>

#include <algorithm>
#include <cmath>

namespace tinwright {

namespace {

constexpr double kTouching_mm = 0.05;

// From the foot of the normal from the bend's centre to where the leaf's face begins, along what swings.
double beginsFromFoot_mm(const BrakeInSetup& brake, const LeafBend& bend, double swung_rad) {
    const double rn = brake.inside_radius_mm();
    return (brake.setback_mm() + rn) * std::cos(swung_rad) +
           (brake->leaf().hinge_height_mm - bend.thickness_mm - rn) * std::sin(swung_rad);
}

double presses_mm(const BrakeInSetup& brake, const LeafBend& bend, double setback_mm) {
    const double rn = brake.inside_radius_mm();
    const double over_hinge_mm = bend.thickness_mm + rn - brake->leaf().hinge_height_mm;
    return over_hinge_mm * (1 - std::cos(bend.set.rad())) - (rn + setback_mm) * std::sin(bend.set.rad());
}

}  // namespace

// Looked at in steps: between two of them it changes by less than a hundredth of a millimetre at setbacks of some
// millimetres.
double leafBegins_mm(const BrakeInSetup& brake, const LeafBend& bend) {
    constexpr int kSteps = 180;
    double most_mm = 0;
    for (int i = 0; i <= kSteps; ++i) {
        const double share = static_cast<double>(i) / kSteps;
        const double strip_left_mm = bend.allowance_mm * (1 - share);  // in front of the foot, when it rolls
        most_mm = std::max(most_mm, beginsFromFoot_mm(brake, bend, share * bend.set.rad()) - strip_left_mm);
    }
    return most_mm;
}

double leafPresses_mm(const BrakeInSetup& brake, const LeafBend& bend) {
    return presses_mm(brake, bend, brake.setback_mm());
}

bool leafJams(const BrakeInSetup& brake, const LeafBend& bend) {
    if (brake.setback_mm() >= bend.thickness_mm) return false;
    const double taken_mm = std::max({0.0, presses_mm(brake, bend, bend.thickness_mm), brake->leaf().hinge_gives_mm});
    return leafPresses_mm(brake, bend) > taken_mm + kTouching_mm;
}

Angle leafLead(const BrakeInSetup& brake, const LeafFace& face, const LeafBend& bend, double flat_mm) {
    const double off_mm = -leafPresses_mm(brake, bend);
    if (off_mm <= kTouching_mm) return {};
    const double arm_mm = flat_mm - beginsFromFoot_mm(brake, bend, bend.set.rad());
    if (arm_mm > 0 && std::hypot(off_mm, arm_mm) <= face.reach_mm) return Angle::radians(std::atan2(off_mm, arm_mm));
    return Angle::radians(std::asin(std::min(1.0, off_mm / face.reach_mm)));
}

}  // namespace tinwright
