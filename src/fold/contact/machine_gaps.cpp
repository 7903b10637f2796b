// SPDX-License-Identifier: GPL-3.0-or-later
// Clearances from the machine, found out only as far as they are asked for.
#include <algorithm>

#include "contact/machine_contacts.h"

namespace tinwright {

bool MachineContacts::groupBeyond(double cap_mm, std::uint32_t record, std::size_t body) {
    const GroupRecord& group = records_.at(records_.at(record).congruent);
    if (!sees(geometry_.machine().bodies()[body], group)) return group.over_driven_mm >= cap_mm;
    BodyContact& proofs = known(group.congruent, body);
    if (cap_mm <= proofs.beyond_mm) return true;
    if (cap_mm >= proofs.not_beyond_mm) return false;
    const bool beyond = piecesWithin(group, viewOf(group, body, true), cap_mm + 2 * kStrictInset_mm).empty();
    (beyond ? proofs.beyond_mm : proofs.not_beyond_mm) = cap_mm;
    return beyond;
}

std::optional<GapBound> MachineContacts::gapUnder(double cap_mm, std::uint32_t record, std::size_t body,
                                                  std::size_t solid) {
    if (const std::uint32_t congruent = records_.at(record).congruent; congruent != record)
        return gapUnder(cap_mm, congruent, body, solid);
    const std::vector<SeenSolid>& solids = seenBy(record, body);
    const GroupRecord& group = records_.at(record);
    if (solids.empty()) {  // what is driven is never near, or bears on the group
        const bool near = group.over_driven_mm < cap_mm;
        return near ? std::optional(GapBound{group.over_driven_mm, geometry_.motions(records_.at(record).bend).set_rad})
                    : std::nullopt;
    }
    const View view = viewOf(group, body, true);
    std::vector<KnownGap>& gaps = known(record, body).gaps;
    gaps.resize(solids.size());
    const SeenSolid& seen = solids[solid];
    const double inset_mm = 2 * kStrictInset_mm;  // corners are moved in by more than edges
    const auto beyond = [&](double margin_mm) {
        return std::all_of(view.pieces->begin(), view.pieces->end(), [&](const ToolPiece& piece) {
            return staysClear(seen, *view.motion, piece.section, piece.ring, margin_mm + inset_mm, kQuickDepth);
        });
    };
    return knownUnder(cap_mm, gaps[solid], beyond, [&] {
        GapBound least{kClearanceCap_mm, 0};
        for (const ToolPiece& piece : *view.pieces) {
            GapBound gap = leastGap(seen, *view.motion, piece, least.gap_mm);
            gap.gap_mm -= inset_mm;
            if (gap.gap_mm < least.gap_mm) least = gap;
        }
        return least;
    });
}

const IntervalSet& MachineContacts::nearerThan(std::uint32_t record, std::size_t body, double margin_mm) {
    auto& nearer = known(record, body).nearer;
    for (const auto& [margin, where] : nearer) {
        if (margin == margin_mm) return where;
    }
    const GroupRecord& group = records_.at(record);
    if (group.congruent != record) {
        const IntervalSet& congruents = nearerThan(group.congruent, body, margin_mm);
        return nearer.emplace_back(margin_mm, congruents.shifted(group.from_congruent_um)).second;
    }
    const View view = viewOf(group, body, true);
    Shadow near;
    for (const SeenSolid& seen : seenBy(record, body)) {
        for (const ToolPiece& piece : *view.pieces)
            castShadow(seen, *view.motion, piece, margin_mm + 2 * kStrictInset_mm, near);
    }
    return nearer.emplace_back(margin_mm, std::move(near.outer)).second;
}

}  // namespace tinwright
