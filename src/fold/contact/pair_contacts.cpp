// SPDX-License-Identifier: GPL-3.0-or-later
#include "contact/pair_contacts.h"

#include <algorithm>
#include <vector>

namespace tinwright {

RecordPair PairContacts::congruentOf(std::uint32_t moving, std::uint32_t held, Micron shift_um) const {
    const GroupRecord& a = records_.at(moving);
    const GroupRecord& b = records_.at(held);
    return {a.congruent, b.congruent, shift_um + a.from_congruent_um - b.from_congruent_um};
}

const PairContact& PairContacts::of(std::uint32_t moving, std::uint32_t held, Micron shift_um) {
    return known(congruentOf(moving, held, shift_um));
}

PairContact& PairContacts::known(const RecordPair& congruents) {
    const auto [entry, is_new] = pairs_.try_emplace(congruents);
    if (is_new) entry->second = compute(congruents);
    return entry->second;
}

bool PairContacts::quicklyBeyond(double cap_mm, const RecordPair& congruents) const {
    const Motion& motion = motionOf(congruents);
    const Convex2& held = *records_.at(congruents.second).hull;
    return staysClear(SeenSection(*records_.at(congruents.first).hull, motion), motion, held,
                      radiusRange(held.points(), motion.centre()), cap_mm, kQuickDepth);
}

PairContact PairContacts::compute(const RecordPair& congruents) {
    PairContact result;
    const Motion& motion = motionOf(congruents);
    const double wanted = geometry_.limits().clearance_mm;
    if (quicklyBeyond(wanted, congruents)) return result;
    for (const Solid& solid : shiftedAlong(records_.laidOut(congruents.second).solids, -congruents.shift_um)) {
        for (const SeenSolid& seen : records_.pairedSeen(congruents.first)) {
            if (staysBeyond(seen, solid, motion, wanted)) continue;
            result.near = true;
            const PairVerdict verdict = sweepPair(seen, solid, motion);
            if (verdict.clear) continue;
            if (result.verdict.clear || verdict.hit) result.verdict = verdict;
            if (verdict.hit) return result;
        }
    }
    return result;
}

std::optional<GapBound> PairContacts::gapUnder(double cap_mm, std::uint32_t moving, std::uint32_t held,
                                               Micron shift_um) {
    const RecordPair congruents = congruentOf(moving, held, shift_um);
    PairContact& contact = known(congruents);
    const Motion& motion = motionOf(congruents);
    const std::vector<SeenSolid>& moving_solids = records_.pairedSeen(congruents.first);
    const auto heldSolids = [&] {
        return shiftedAlong(records_.laidOut(congruents.second).solids, -congruents.shift_um);
    };
    const auto beyond = [&](double margin_mm) {
        if (quicklyBeyond(margin_mm, congruents)) return true;
        const std::vector<Solid> held_solids = heldSolids();
        return std::all_of(moving_solids.begin(), moving_solids.end(), [&](const SeenSolid& seen) {
            return std::all_of(held_solids.begin(), held_solids.end(),
                               [&](const Solid& solid) { return staysBeyond(seen, solid, motion, margin_mm); });
        });
    };
    return knownUnder(cap_mm, contact.gap, beyond, [&] {
        GapBound least{kClearanceCap_mm, 0};
        for (const Solid& solid : heldSolids()) {
            for (const SeenSolid& seen : moving_solids) {
                const GapBound gap = leastPairGap(seen, solid, motion, least.gap_mm);
                if (gap.gap_mm < least.gap_mm) least = gap;
            }
        }
        return least;
    });
}

}  // namespace tinwright
