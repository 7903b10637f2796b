// SPDX-License-Identifier: GPL-3.0-or-later
#include "contact/plain_ways.h"

namespace tinwright {

const PlainExit& PlainWays::of(std::uint32_t record, Phase phase) {
    if (known_.size() <= record) known_.resize(records_.count());
    const GroupRecord& group = records_.at(record);
    std::unique_ptr<PlainExit>& slot = known_[record][records_.moves(group) && phase == Phase::kAfter ? 1 : 0];
    if (slot) return *slot;
    // A congruent record is an older one, so nothing moves `slot`.
    slot = std::make_unique<PlainExit>(group.congruent == record ? compute(record, phase) : of(group.congruent, phase));
    for (std::vector<IntervalSet>* sets : {&slot->bars, &slot->sure_bars, &slot->bodies}) {
        for (IntervalSet& set : *sets) set = set.shifted(group.from_congruent_um);
    }
    return *slot;
}

PlainExit PlainWays::compute(std::uint32_t record, Phase phase) {
    PlainExit exit;
    exit.bars.resize(geometry_.machine().families().size());
    exit.sure_bars.resize(exit.bars.size());
    exit.bodies.resize(geometry_.machine().faceCount());
    cornersOf(records_.ringsOf(records_.at(record)), records_.poseIn(record, phase), scratch_);
    const Convex2 hull = cornerHull(scratch_);
    if (exits_.clearOfBars(hull) && exits_.clearOfBodies(hull)) return exit;
    const std::vector<Solid>& solids = records_.atRest(record, phase);
    for (std::size_t family = 0; family < exit.bars.size(); ++family)
        exits_.addBars(family, solids, exit.bars[family], exit.sure_bars[family]);
    for (std::size_t face = 0; face < exit.bodies.size(); ++face) exit.bodies[face] = exits_.bodies(face, solids);
    return exit;
}

}  // namespace tinwright
