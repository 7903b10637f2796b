// SPDX-License-Identifier: GPL-3.0-or-later
#include "measures/planned_room.h"

#include <algorithm>
#include <cmath>

#include <tinwright/brake/tooling/vee_bearing.h>
#include <tinwright/forming/metal/press_bend.h>

namespace tinwright::forming {

namespace {

double set_rad(const Part& part, const Bend& bend, const Shop& shop, const BrakeInSetup& brake) {
    return Angle::degrees(bend.angle.deg() + shop.overbendFor_deg(part.material, *brake)).rad();
}

}  // namespace

std::optional<double> plannedFlat_mm(const Part& part, const Bend& bend, const Shop& shop, const BrakeInSetup& brake,
                                     const Vee& vee) {
    const double half_rad = 0.5 * set_rad(part, bend, shop, brake);
    const VeeBearing bearing(vee, part.thickness_mm + pressRadius_mm(brake->press(), vee));
    if (!bearing.takes(half_rad)) return std::nullopt;
    return bearing.leastFlat_mm(half_rad, 0.5 * bend.allowance_mm);
}

// With the leaf's axis at (-s, h) and the arc's centre at C = (r, t + r) the tip of its face is, along the sheet, reach
// + (r + s) cos a - (t + r - h) sin a - (what of the strip is still flat) from where the moving side begins; of a strip
// that curves that is A (1 / a - 1 / S) sin a, the least. The flange's inside face then curves down, r round: the tip
// may be as far past where the flat ends as it is in the sheet by no more than what is let pass.
double plannedStepFlat_mm(const Part& part, const Bend& made, const Shop& shop, const BrakeInSetup& brake) {
    constexpr int kSteps = 256;
    const LeafBrake& leaf = brake->leaf();
    double reach_mm = leaf.leaf_faces.front().reach_mm;
    for (const LeafFace& face : leaf.leaf_faces) reach_mm = std::min(reach_mm, face.reach_mm);
    const double r = brake.inside_radius_mm();
    const double end = set_rad(part, made, shop, brake);
    double tip_mm = reach_mm + r + brake.setback_mm() - made.allowance_mm;
    for (int i = 1; i <= kSteps; ++i) {
        const double a = end * i / kSteps;
        tip_mm = std::max(tip_mm, reach_mm + (r + brake.setback_mm()) * std::cos(a) -
                                      (part.thickness_mm + r - leaf.hinge_height_mm) * std::sin(a) -
                                      made.allowance_mm * (1 / a - 1 / end) * std::sin(a));
    }
    return tip_mm - std::sqrt(kPlannedContact_mm * (2 * r + kPlannedContact_mm));
}

}  // namespace tinwright::forming
