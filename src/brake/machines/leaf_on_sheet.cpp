// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/machines/leaf_on_sheet.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace tinwright {

namespace {

constexpr double kTouching_mm = 0.05;

// From the foot of the normal from the bend's centre to where the leaf's face begins, along what swings.
double beginsFromFoot_mm(const BrakeInSetup& brake, const LeafBend& bend, double swung_rad) {
    const double rn = brake.inside_radius_mm();
    return (brake.setback_mm() + rn) * std::cos(swung_rad) +
           (brake.hinge_height_mm() - bend.thickness_mm - rn) * std::sin(swung_rad);
}

/// Past the strip, over the swing.
struct Begins {
    double least_mm = 0;
    double most_mm = 0;
};

// Looked at in steps: between two of them it changes by less than a hundredth of a millimetre at setbacks of some
// millimetres.
Begins beginsOver(const BrakeInSetup& brake, const LeafBend& bend) {
    constexpr int kSteps = 180;
    Begins over{std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
    for (int i = 0; i <= kSteps; ++i) {
        const double share = static_cast<double>(i) / kSteps;
        const double strip_left_mm = bend.allowance_mm * (1 - share);  // in front of the foot, when it rolls
        const double begins_mm = beginsFromFoot_mm(brake, bend, share * bend.set.rad()) - strip_left_mm;
        over = {std::min(over.least_mm, begins_mm), std::max(over.most_mm, begins_mm)};
    }
    return over;
}

double presses_mm(const BrakeInSetup& brake, const LeafBend& bend, double setback_mm) {
    const double rn = brake.inside_radius_mm();
    const double over_leaf_mm = bend.thickness_mm + rn - brake.hingeOverLeaf_mm();
    const double over_hinge_mm = bend.thickness_mm + rn - brake.hinge_height_mm();
    return over_leaf_mm - over_hinge_mm * std::cos(bend.set.rad()) - (rn + setback_mm) * std::sin(bend.set.rad());
}

}  // namespace

double leafBegins_mm(const BrakeInSetup& brake, const LeafBend& bend) {
    return std::max(0.0, beginsOver(brake, bend).most_mm);
}

PackingOnLeaf packingOnLeaf(const BrakeInSetup& brake, const LeafBend& bend, double land_mm) {
    const Begins begins = beginsOver(brake, bend);
    return {begins.most_mm, std::max(0.0, begins.most_mm) + land_mm - begins.least_mm};
}

double leafPresses_mm(const BrakeInSetup& brake, const LeafBend& bend) {
    return presses_mm(brake, bend, brake.setback_mm());
}

bool leafJams(const BrakeInSetup& brake, const LeafBend& bend) {
    const double usual_mm = bend.thickness_mm + brake.leafPacking_mm();
    if (brake.setback_mm() >= usual_mm) return false;
    const double taken_mm = std::max({0.0, presses_mm(brake, bend, usual_mm), brake->leaf().hinge_gives_mm});
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
