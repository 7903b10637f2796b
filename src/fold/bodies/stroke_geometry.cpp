// SPDX-License-Identifier: GPL-3.0-or-later
#include "bodies/stroke_geometry.h"

#include <algorithm>
#include <numbers>
#include <utility>

#include <tinwright/part/model/bend_frame.h>

namespace tinwright {

namespace {

// The bend's frame does not count, nor which way the bend goes: only what the motions are made of.
std::size_t firstThatGoesAs(const std::vector<Bend>& bends, const Bend& bend) {
    std::size_t first = 0;
    while (bends[first].allowance_mm != bend.allowance_mm || bends[first].angle != bend.angle) ++first;
    return first;
}

}  // namespace

StrokeGeometry::StrokeGeometry(const PartOnBrake& folded, const Shop& shop, std::unique_ptr<const Machine> machine,
                               const std::vector<double>& radii_mm)
    : machine_(std::move(machine)),
      bodies_(folded, machine_->brake().inside_radius_mm(), radii_mm),
      limits_(&shop.limits) {
    // An angle past what the machine folds is refused before its motion is asked for; the cap keeps spans under half a
    // turn.
    constexpr double kMost_rad = std::numbers::pi - 1e-3;
    const Angle overbend = Angle::degrees(shop.overbendFor_deg(part().material, *machine_->brake()));
    for (const Bend& bend : part().bends) {
        const double set_rad = std::min(bend.angle.rad() + overbend.rad(), kMost_rad);
        motions_.push_back(std::make_unique<BendMotions>(*machine_, bend.allowance_mm, set_rad));
        motion_class_.push_back(firstThatGoesAs(part().bends, bend));
    }
}

Rigid StrokeGeometry::bendFrame(BendId bend, Side hold) const {
    return foldFromBlank(part().bend(bend), hold, part().thickness_mm, motions(bend).strip_back_mm);
}

std::vector<Solid> StrokeGeometry::slicesAt(BendId bend, Side hold, Angle angle, double longer_mm,
                                            const Rigid& then) const {
    const Bend& line = part().bend(bend);
    Rigid pose = then * bendFrame(bend, hold);
    if (hold == Side::kChild)
        pose = pose * parentFromChild(line, part().thickness_mm, angle, bodies_.inside_radius_mm()).inverse();
    std::vector<Solid> slices;
    const Vec3 by(longer_mm * line.along.x(), longer_mm * line.along.y(), 0);
    for (PrismRings& rings : bodies_.arcOf(bend, angle)) {
        for (Vec3& corner : rings.bottom) corner -= by;
        for (Vec3& corner : rings.top) corner += by;
        slices.emplace_back(rings, pose);
    }
    return slices;
}

std::vector<Solid> shiftedAlong(const std::vector<Solid>& solids, Micron shift_um) {
    std::vector<Solid> result;
    result.reserve(solids.size());
    for (const Solid& solid : solids) result.push_back(shift_um == 0 ? solid : solid.movedAlongX(toMm(shift_um)));
    return result;
}

}  // namespace tinwright
