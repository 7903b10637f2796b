// SPDX-License-Identifier: GPL-3.0-or-later
// Clearances, found out only as far as they are asked for.
#include <algorithm>
#include <iterator>

#include "contact/contact_cache.h"
#include "kernel/rest_distance.h"

namespace tinwright {

namespace {

bool comeWithin(double margin_mm, const std::vector<Solid>& a, const std::vector<Solid>& b) {
    return std::any_of(a.begin(), a.end(), [&](const Solid& one) {
        return std::any_of(b.begin(), b.end(),
                           [&](const Solid& other) { return restDistance_mm(one, other, margin_mm) <= margin_mm; });
    });
}

// Proofs are tried at few margins, so that a proof serves many caps. No cap is over the last.
constexpr double kProofMargins_mm[] = {0.5, 1.0, 2.0, kClearanceCap_mm};

// The least gap is found to some hundredths under the true one. It is raised to a margin that is proven past it: else
// it would be told or not depending on which caps were asked for before.
template <class Beyond>
GapBound raised(GapBound gap, Beyond beyond) {
    for (const double margin_mm : kProofMargins_mm) {
        if (margin_mm <= gap.gap_mm) continue;
        if (!beyond(margin_mm)) break;
        gap.gap_mm = margin_mm;
    }
    return gap;
}

template <class Beyond, class Least>
std::optional<GapBound> knownUnder(double cap_mm, KnownGap& known, Beyond beyond, Least least) {
    if (!known.gap && known.beyond_mm < cap_mm) {
        const double margin_mm =
            *std::lower_bound(std::begin(kProofMargins_mm), std::end(kProofMargins_mm) - 1, cap_mm);
        if (beyond(margin_mm)) {
            known.beyond_mm = margin_mm;
        } else {
            known.gap = raised(least(), beyond);
        }
    }
    return known.gap && known.gap->gap_mm < cap_mm ? known.gap : std::nullopt;
}

}  // namespace

bool ContactCache::groupBeyond(double cap_mm, std::uint32_t record, std::size_t body) {
    const GroupContact& contact = *records_[records_[record]->congruent];
    if (machine_.bodies()[body].driven && !contact.driven_sees) return contact.over_driven_mm >= cap_mm;
    BodyContact& proofs = known(contact.congruent, body);
    if (cap_mm <= proofs.beyond_mm) return true;
    if (cap_mm >= proofs.not_beyond_mm) return false;
    const bool beyond =
        piecesWithin(contact, viewOf(contact, motions(contact.bend), body, true), cap_mm + 2 * kStrictInset_mm).empty();
    (beyond ? proofs.beyond_mm : proofs.not_beyond_mm) = cap_mm;
    return beyond;
}

std::optional<GapBound> ContactCache::gapUnder(double cap_mm, std::uint32_t record, std::size_t body,
                                               std::size_t solid) {
    if (const std::uint32_t congruent = records_[record]->congruent; congruent != record)
        return gapUnder(cap_mm, congruent, body, solid);
    const std::vector<SeenSolid>& solids = seenBy(record, body);
    const GroupContact& group = *records_[record];
    if (solids.empty()) {  // what is driven is never near, or bears on the group
        const bool near = group.over_driven_mm < cap_mm;
        return near ? std::optional(GapBound{group.over_driven_mm, motions(bend_of_record_[record]).set_rad})
                    : std::nullopt;
    }
    const View view = viewOf(group, motions(bend_of_record_[record]), body, true);
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

const IntervalSet& ContactCache::nearerThan(std::uint32_t record, std::size_t body, double margin_mm) {
    auto& nearer = known(record, body).nearer;
    for (const auto& [margin, where] : nearer) {
        if (margin == margin_mm) return where;
    }
    const GroupContact& contact = *records_[record];
    if (contact.congruent != record) {
        const IntervalSet& congruents = nearerThan(contact.congruent, body, margin_mm);
        return nearer.emplace_back(margin_mm, congruents.shifted(contact.from_congruent_um)).second;
    }
    const View view = viewOf(contact, motions(contact.bend), body, true);
    Shadow near;
    for (const SeenSolid& seen : seenBy(record, body)) {
        for (const ToolPiece& piece : *view.pieces)
            castShadow(seen, *view.motion, piece, margin_mm + 2 * kStrictInset_mm, near);
    }
    return nearer.emplace_back(margin_mm, std::move(near.outer)).second;
}

std::optional<GapBound> ContactCache::pairGapUnder(double cap_mm, std::uint32_t moving, std::uint32_t held,
                                                   Micron shift_um) {
    const PairKey congruents = congruentOf(moving, held, shift_um);
    if (congruents.moving != moving || congruents.held != held)
        return pairGapUnder(cap_mm, congruents.moving, congruents.held, congruents.shift_um);
    pair(moving, held, shift_um);
    PairContact& contact = pairs_.at(congruents);
    const Motion& motion = motions(bend_of_record_[moving]).pair;
    const std::vector<SeenSolid>& moving_solids = pairedSeen(moving);
    const auto beyond = [&](double margin_mm) {
        if (groupsBeyond(margin_mm, *records_[moving], *records_[held], motion)) return true;
        const std::vector<Solid> held_solids = shifted(laidOut(held).solids, -shift_um);
        return std::all_of(moving_solids.begin(), moving_solids.end(), [&](const SeenSolid& seen) {
            return std::all_of(held_solids.begin(), held_solids.end(),
                               [&](const Solid& solid) { return staysBeyond(seen, solid, motion, margin_mm); });
        });
    };
    return knownUnder(cap_mm, contact.gap, beyond, [&] {
        GapBound least{kClearanceCap_mm, 0};
        for (const Solid& solid : shifted(laidOut(held).solids, -shift_um)) {
            for (const SeenSolid& seen : moving_solids) {
                const GapBound gap = leastPairGap(seen, solid, motion, least.gap_mm);
                if (gap.gap_mm < least.gap_mm) least = gap;
            }
        }
        return least;
    });
}

double ContactCache::drawnGap_mm(std::size_t a, std::size_t b) const {
    double least_mm = kClearanceCap_mm;
    for (const Solid& one : finished_[a]) {
        for (const Solid& other : finished_[b]) least_mm = std::min(least_mm, restGap_mm(one, other, least_mm));
    }
    return least_mm;
}

bool ContactCache::drawnClose(std::size_t a, std::size_t b) {
    if (a > b) std::swap(a, b);
    const auto [entry, is_new] = drawn_close_.try_emplace((std::uint64_t{a} << 32) | b, false);
    if (is_new) entry->second = comeWithin(limits_->clearance_mm, finished_[a], finished_[b]);
    return entry->second;
}

}  // namespace tinwright
