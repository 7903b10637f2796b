// SPDX-License-Identifier: GPL-3.0-or-later
// The part within tolerances as it lies before a stroke and after it, for its ways in and out.
#include <algorithm>
#include <limits>

#include "tolerances/tolerance_table.h"

namespace tinwright {

const std::vector<Solid>& ToleranceTable::atRest(std::uint32_t record, Phase phase, SeenFrom from) {
    const GroupRecord& contact = table_.at(record);
    if (phase == Phase::kBefore || !contact.moving) return inflated(record, from, true).solids;
    auto& slot = kept(record).after[from == SeenFrom::kBars ? 1 : 0];
    if (slot) return *slot;
    const Rigid pose = table_.records().poseIn(record, phase);
    slot = std::make_unique<std::vector<Solid>>();
    for (const PrismRings& one : inflatedRings(record, phase, {from, true, 0, 0})) slot->emplace_back(one, pose);
    return *slot;
}

ToleranceTable::Bounds ToleranceTable::boundsOf(std::uint32_t record, Phase phase) const {
    const GroupRecord& contact = table_.at(record);
    const bool after = phase == Phase::kAfter && contact.moving;
    const Rigid swung =
        after ? swungBy(table_.geometry().motions(contact.bend), table_.bodies().part().bend(contact.bend).angle.rad())
              : Rigid::Identity();
    Bounds bounds{std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
    for (const Vec2& corner : contact.hull->points()) {
        const Vec3 placed = swung * Vec3(0, corner.x(), corner.y());
        bounds.z_lo_mm = std::min(bounds.z_lo_mm, placed.z());
        bounds.y_hi_mm = std::max(bounds.y_hi_mm, placed.y());
    }
    return bounds;
}

bool ToleranceTable::liesOutOfTheWay(std::uint32_t record, Phase phase) {
    const bool after = phase == Phase::kAfter && table_.at(record).moving;
    if (!after && deviation(record, phase).formedBends() == 0) return true;
    const Machine& machine = table_.machine();
    const double front_mm = machine.beam() >= 0 ? std::min(0.0, machine.brake()->leaf().beam->front_y_mm) : 0.0;
    return boundsOf(record, phase).y_hi_mm + most_mm(record, phase) < front_mm && liesAboveBed(record, phase);
}

bool ToleranceTable::liesAboveBed(std::uint32_t record, Phase phase) {
    const GroupRecord& contact = table_.at(record);
    auto& slot = kept(record).above[phase == Phase::kAfter && contact.moving ? 1 : 0];
    if (slot) return *slot;
    const bool before = phase == Phase::kBefore || !contact.moving;
    if (before ? contact.rises && deviation(record, phase).formedBends() <= 1 : leavesTheNose(record))
        return *(slot = true);
    if (boundsOf(record, phase).z_lo_mm > most_mm(record, phase)) return *(slot = true);
    // As the bars see it, and lower by as much as the sheet may be thicker: those solids are made anyway.
    const std::vector<Solid>& solids = atRest(record, phase, SeenFrom::kBars);
    slot = std::all_of(solids.begin(), solids.end(), [&](const Solid& solid) {
        return std::all_of(solid.corners().begin(), solid.corners().end(),
                           [&](const Vec3& corner) { return corner.z() > box_.thickness_mm; });
    });
    return *slot;
}

bool ToleranceTable::leavesTheNose(std::uint32_t record) const {
    const GroupRecord& contact = table_.at(record);
    if (!contact.moving || !contact.lies_flat) return false;
    const PartBodies& bodies = table_.bodies();
    const Group& what = bodies.groups()[contact.group];
    const BendMask path =
        bodies.path(heldPanel(bodies.part().bend(contact.bend), contact.hold), what.frame) & ~bit(contact.bend);
    if ((contact.formed & path) != 0 || contact.is_arc) return false;
    const Swing& swing = table_.geometry().motions(contact.bend).swing;
    const auto& corners = contact.hull->points();
    return std::all_of(corners.begin(), corners.end(),
                       [&](const Vec2& p) { return p.x() < swing.centre().x() - swing.allowance_mm() + kFlat_mm; });
}

bool ToleranceTable::oneSheet(BendId a, Side hold_a, BendId b, Side hold_b, BendMask formed) const {
    const Part& part = table_.bodies().part();
    return (table_.bodies().path(heldPanel(part.bend(a), hold_a), heldPanel(part.bend(b), hold_b)) & formed) == 0;
}

}  // namespace tinwright
