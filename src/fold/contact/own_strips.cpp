// SPDX-License-Identifier: GPL-3.0-or-later
#include "contact/own_strips.h"

namespace tinwright {

OwnStrips::OwnStrips(const StrokeGeometry& geometry, const GroupRecords& records)
    : geometry_(geometry), records_(records) {
    bent_.resize(geometry.part().bends.size() * 2);
    sprung_back_.resize(bent_.size());
}

const std::vector<Solid>& OwnStrips::bent(BendId bend, Side hold) {
    auto& slot = bent_[slotOf(bend, hold)];
    if (!slot) {
        slot = std::make_unique<std::vector<Solid>>(
            geometry_.slicesAt(bend, hold, Angle::radians(geometry_.set_rad(bend)), 0));
    }
    return *slot;
}

const std::vector<Solid>& OwnStrips::sprungBack(BendId bend, Side hold) {
    auto& slot = sprung_back_[slotOf(bend, hold)];
    if (!slot) {
        const Angle angle = geometry_.part().bend(bend).angle;
        const Rigid lies = sideSwungBy(geometry_.machine(), geometry_.motions(bend), false, angle.rad());
        slot = std::make_unique<std::vector<Solid>>(geometry_.slicesAt(bend, hold, angle, 0, lies));
    }
    return *slot;
}

StripContact OwnStrips::contact(BendId bend, Side hold, std::uint32_t record, Micron shift_um) {
    const GroupRecord& group = records_.at(record);
    // The strip stays within this distance of the nose centre.
    const double reach = geometry_.motions(bend).swing.centre().y() + kRounding_mm;
    if (group.ring.least_mm - group.reach_mm > reach) return StripContact::kClear;
    const auto strip = static_cast<std::uint32_t>(slotOf(bend, hold));
    const auto [entry, is_new] = contacts_.try_emplace({strip, record, shift_um}, StripContact::kClear);
    if (!is_new) return entry->second;
    return entry->second = shift_um == 0 ? compute(bent(bend, hold), group)
                                         : compute(shiftedAlong(bent(bend, hold), shift_um), group);
}

StripContact OwnStrips::compute(const std::vector<Solid>& slices, const GroupRecord& group) const {
    Rigid pose = group.pose;  // seen from the held side
    if (group.moving) pose = swungBy(geometry_.motions(group.bend), geometry_.set_rad(group.bend)) * pose;
    StripContact result = StripContact::kClear;
    for (const PrismRings& rings : records_.ringsOf(group)) {
        const Solid solid(rings, pose);
        for (const Solid& slice : slices) {
            if (liesBeyond(slice, solid, -kContactTolerance_mm)) continue;
            result = StripContact::kUnclear;
            if (!liesBeyond(slice, solid, -kContactTolerance_mm - 2 * kArcSagitta_mm)) return StripContact::kHit;
        }
    }
    return result;
}

}  // namespace tinwright
