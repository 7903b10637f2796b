// SPDX-License-Identifier: GPL-3.0-or-later
#include "contact/packing_room.h"

#include <algorithm>

namespace tinwright {

namespace {

bool liesAlong(const GroupRecord& group, Micron shift_um, const std::vector<Interval>& needs) {
    const Interval at{micronFloor(group.x_lo_mm) + shift_um, micronCeil(group.x_hi_mm) + shift_um};
    return std::any_of(needs.begin(), needs.end(),
                       [&](const Interval& need) { return at.lo < need.hi && need.lo < at.hi; });
}

// In y, all of it.
Stretch acrossOf(const GroupRecord& group) {
    Stretch across{std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
    for (const Vec2& p : group.hull->points())
        across = {std::min(across.from_mm, p.x()), std::max(across.to_mm, p.x())};
    return across;
}

}  // namespace

PackingRoom packingRoom(const ContactCache& table, const StrokeScene& scene, std::size_t packing) {
    const Machine& machine = table.machine();
    Stretch strips{0, 0};
    double leaf_front_mm = std::numeric_limits<double>::infinity();  // y of the near edge of the leaf's strip
    for (const StrokeBend& bend : scene.bends) {
        const BendMotions& motions = table.geometry().motions(bend.bend);
        const Stretch least = machine.packedStretch(packing, motions, table.limits());
        strips = {std::min(strips.from_mm, least.from_mm), std::max(strips.to_mm, least.to_mm)};
        leaf_front_mm = std::min(leaf_front_mm, motions.strip_front_mm - machine.packingBegins_mm(packing, motions));
    }
    const double bed_front_mm = machine.packingFront_mm(packing);
    PackingRoom room;
    for (const GroupUse& use : scene.uses) {
        const GroupRecord& group = table.at(use.record);
        if (group.rises || !liesAlong(group, use.shift_um, scene.needs)) continue;
        const Stretch across = acrossOf(group);
        if (across.from_mm >= strips.to_mm) {
            room.on_bed_mm = std::min(room.on_bed_mm, across.from_mm - bed_front_mm);
        } else if (across.to_mm <= strips.from_mm) {
            room.on_leaf_mm = std::min(room.on_leaf_mm, leaf_front_mm - across.to_mm);
        } else {
            return {false, 0, 0};
        }
    }
    return room;
}

}  // namespace tinwright
