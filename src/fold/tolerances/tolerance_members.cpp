// SPDX-License-Identifier: GPL-3.0-or-later
// Members of the part against one another over the tolerances.
#include <algorithm>

#include "tolerances/tolerance_table.h"

namespace tinwright {

namespace {

constexpr double kLackWithin_mm = 0.2;  // nobody needs it closer
constexpr double kSomeLack_mm = 1e-6;

}  // namespace

const ToleranceTable::MemberLack& ToleranceTable::pair(std::uint32_t moving, std::uint32_t held, Micron shift_um) {
    const auto [entry, is_new] = pairs_.try_emplace({moving, held, shift_um});
    if (is_new) entry->second = computePair(moving, held, shift_um);
    return entry->second;
}

double ToleranceTable::drawnGap_mm(std::size_t a, std::size_t b) {
    const auto [entry, is_new] = drawn_gaps_.try_emplace({std::min(a, b), std::max(a, b)}, kClearanceCap_mm);
    if (is_new) entry->second = table_.drawn().gap_mm(a, b);
    return entry->second;
}

ToleranceTable::MemberLack ToleranceTable::computePair(std::uint32_t moving, std::uint32_t held, Micron shift_um) {
    const GroupRecord& a = table_.at(moving);
    const GroupRecord& b = table_.at(held);
    const Motion& motion = swingBounds(a.bend).motions.moving;
    const double reach_mm = most_mm(moving, Phase::kBefore) + most_mm(held, Phase::kBefore);
    const double shift_mm = toMm(shift_um);
    if (a.x_lo_mm + shift_mm > b.x_hi_mm + reach_mm || b.x_lo_mm > a.x_hi_mm + shift_mm + reach_mm) return {};
    const RadiusRange ring = radiusRange(b.hull->points(), motion.centre());
    if (staysClear(SeenSection(*a.hull, motion), motion, *b.hull, ring, reach_mm, kQuickDepth)) return {};
    const bool one_sheet =
        deviation(moving, Phase::kBefore).formedBends() == 0 && deviation(held, Phase::kBefore).formedBends() == 0;
    const std::vector<SeenSolid>& swinging = inflated(moving, SeenFrom::kBars, !one_sheet).seen;
    std::optional<double> room_mm;  // what is left as drawn: in the stroke more than in the finished part
    MemberLack result;
    for (const Solid& solid : shiftedAlong(inflated(held, SeenFrom::kBars, !one_sheet).solids, -shift_um)) {
        for (const SeenSolid& seen : swinging) {
            if (staysBeyond(seen, solid, motion, -kContactTolerance_mm)) continue;
            if (!room_mm) {
                const auto gap = table_.pairs().gapUnder(kClearanceCap_mm, moving, held, shift_um);
                room_mm = drawnGap_mm(a.group, b.group) - std::max(0.0, gap ? gap->gap_mm : kClearanceCap_mm);
            }
            if (*room_mm < kSomeLack_mm) return {0, true};
            const double lack_mm = -leastPairGap(seen, solid, motion, -result.lack_mm, kLackWithin_mm).gap_mm;
            result.lack_mm = std::max({result.lack_mm, kSomeLack_mm, lack_mm});
            if (*room_mm < result.lack_mm) return {0, true};
        }
    }
    return result;
}

// The strip lies round the nose whatever the sheet; it may be thicker, and go on to a greater angle.
ToleranceTable::MemberLack ToleranceTable::strip(BendId bend, Side hold, std::uint32_t record, Micron shift_um) {
    const GroupRecord& contact = table_.at(record);
    const BendMotions& motions = swingBounds(contact.bend).motions;
    const double cut_mm = box_.cutting_mm[table_.bodies().part().bend(bend).parent.index()];
    const double reach_mm = box_.thickness_mm + cut_mm + most_mm(record, Phase::kBefore);
    if (contact.ring.least_mm - motions.moving.shiftBound_mm() > motions.swing.centre().y() + reach_mm) return {};
    const bool one_sheet = deviation(record, Phase::kBefore).formedBends() == 0;
    const double margin_mm = (one_sheet ? 0.0 : box_.thickness_mm) - kContactTolerance_mm;
    const Rigid pose = contact.moving ? Rigid(swungBy(motions, motions.swing.set_rad()) * contact.pose) : contact.pose;
    std::vector<Solid>& slices = strips_[{bend.index(), static_cast<std::size_t>(hold), one_sheet ? 0U : 1U}];
    if (slices.empty())
        slices = table_.geometry().slicesAt(bend, hold, Angle::radians(swingBounds(bend).motions.swing.set_rad()),
                                            one_sheet ? 0.0 : cut_mm);
    const std::vector<Solid> own = shiftedAlong(slices, shift_um);
    MemberLack result;
    for (const PrismRings& rings : inflated(record, SeenFrom::kBars, !one_sheet).rings) {
        const Solid solid(rings, pose);
        for (const Solid& slice : own) {
            const double gap_mm = restGap_mm(slice, solid, margin_mm);
            if (gap_mm > margin_mm) continue;
            result.lack_mm = std::max(result.lack_mm, margin_mm + kContactTolerance_mm - gap_mm);
            if (drawnGap_mm(table_.bodies().stripGroup(bend), contact.group) < reach_mm) return {0, true};
        }
    }
    return result;
}

}  // namespace tinwright
