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
    std::vector<Stretch> hanging;
    for (const GroupUse& use : scene.uses) {
        const GroupRecord& group = table.at(use.record);
        if (!group.rises && liesAlong(group, use.shift_um, scene.needs)) hanging.push_back(acrossOf(group));
    }
    PackingRoom room;
    for (std::size_t i = 0; i < scene.bends.size() && !hanging.empty(); ++i) {
        const BendMotions& motions = table.geometry().motions(scene.bends[i].bend);
        const PackedLie strips = table.machine().packedLie(packing, motions, table.limits());
        for (const Stretch& across : hanging) {
            if (across.from_mm >= strips.least.to_mm) {
                room.on_bed_mm = std::min(room.on_bed_mm, across.from_mm - strips.bed_from_mm);
            } else if (across.to_mm <= strips.least.from_mm) {
                room.on_leaf_mm = std::min(room.on_leaf_mm, strips.leaf_from_mm - across.to_mm);
            } else {
                return {false, 0, 0};
            }
        }
    }
    return room;
}

}  // namespace tinwright
