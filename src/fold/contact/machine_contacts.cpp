// SPDX-License-Identifier: GPL-3.0-or-later
#include "contact/machine_contacts.h"

#include <algorithm>
#include <numeric>
#include <utility>

#include "machine/machine_sections.h"

namespace tinwright {

MachineContacts::OfRecord& MachineContacts::ofRecord(std::uint32_t record) {
    if (of_record_.size() <= record) of_record_.resize(records_.count());
    std::unique_ptr<OfRecord>& slot = of_record_[record];
    if (!slot) slot = std::make_unique<OfRecord>();
    return *slot;
}

BodyContact& MachineContacts::known(std::uint32_t record, std::size_t body) {
    std::vector<BodyContact>& bodies = ofRecord(record).bodies;
    if (bodies.empty()) bodies.resize(geometry_.machine().bodies().size());
    return bodies[body];
}

const BodyContact& MachineContacts::contact(std::uint32_t record, std::size_t body) {
    const GroupRecord& group = records_.at(record);
    if (group.from_congruent_um == 0 && group.congruent != record) return contact(group.congruent, body);
    BodyContact& result = known(record, body);
    if (result.known) return result;
    if (group.congruent != record) {
        const BodyContact& congruents = contact(group.congruent, body);
        result.known = true;
        result.intended = congruents.intended;
        result.shadow = {congruents.shadow.outer.shifted(group.from_congruent_um),
                         congruents.shadow.inner.shifted(group.from_congruent_um)};
        return result;
    }
    std::vector<std::size_t> all(records_.ringsOf(group).size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    castContact(record, body, all, result);
    return result;
}

// What does not come nearer than wanted does not touch either.
const BodyContact& MachineContacts::contactAndNear(std::uint32_t record, std::size_t body) {
    const GroupRecord& group = records_.at(record);
    if (group.from_congruent_um == 0 && group.congruent != record) return contactAndNear(group.congruent, body);
    BodyContact& result = known(record, body);
    if (result.near_known) return result;
    result.near_known = true;
    if (group.congruent != record) {
        result.near = contactAndNear(group.congruent, body).near.shifted(group.from_congruent_um);
        return contact(record, body);
    }
    const Body& tool = geometry_.machine().bodies()[body];
    if (isIntended(group, tool) || !sees(tool, group)) return contact(record, body);
    const std::vector<std::size_t> close = castNear(record, body, result);
    if (isLate(group, tool)) static_cast<void>(contact(record, body));  // contact is asked over all of the stroke
    if (!result.known) castContact(record, body, close, result);
    result.near.add(result.shadow.outer);
    return result;
}

const std::vector<std::uint32_t>& MachineContacts::familiesMet(std::uint32_t record, bool wanted) {
    if (const std::uint32_t congruent = records_.at(record).congruent; congruent != record)
        return familiesMet(congruent, wanted);
    std::optional<std::vector<std::uint32_t>>& met =
        wanted ? ofRecord(record).families_near : ofRecord(record).families_met;
    if (met) return *met;
    const auto isMet = [&](std::size_t body) {
        const BodyContact& found = wanted ? contactAndNear(record, body) : contact(record, body);
        return !found.shadow.outer.empty() || (wanted && !found.near.empty());
    };
    std::vector<std::uint32_t> families;
    for (std::size_t f = 0; f < geometry_.machine().families().size(); ++f) {
        const ToolFamily& family = geometry_.machine().families()[f];
        const bool high = isMet(family.high);
        if ((family.low >= 0 && isMet(static_cast<std::size_t>(family.low))) || high)
            families.push_back(static_cast<std::uint32_t>(f));
    }
    return *(met = std::move(families));
}

MachineContacts::View MachineContacts::viewOf(const GroupRecord& group, std::size_t body, bool strict) const {
    const BendMotions& motions = geometry_.motions(group.bend);
    const Body& tool = geometry_.machine().bodies()[body];
    const ToolPieces* pieces = strict ? &tool.strict : &tool.pieces;
    if (tool.driven) {
        const DrivenMotions& driven = motions.from_driven[tool.packing];
        return {group.moving ? &driven.moving : &driven.held, pieces};
    }
    if (strict && isLate(group, tool)) return {&*motions.late, pieces};
    return {group.moving ? &motions.moving : &motions.held, pieces};
}

const std::vector<SeenSolid>& MachineContacts::seenBy(std::uint32_t record, std::size_t body) {
    static const std::vector<SeenSolid> kNone;
    const GroupRecord& group = records_.laidOut(record);
    const Body& tool = geometry_.machine().bodies()[body];
    if (!tool.driven) return group.seen;
    return sees(tool, group) ? group.from_driven[tool.packing] : kNone;
}

// Pieces of a tool that the group, taken as one, is not proven to keep away from; most keep away from most.
std::vector<const ToolPiece*> MachineContacts::piecesWithin(const GroupRecord& group, const View& view,
                                                            double margin_mm) {
    std::vector<const ToolPiece*> result;
    const SeenSection whole(*group.hull, *view.motion);
    for (const ToolPiece& piece : *view.pieces) {
        if (!staysClear(whole, *view.motion, piece.section, piece.ring, margin_mm, kQuickDepth))
            result.push_back(&piece);
    }
    return result;
}

// The sheet on the bed lies under the bars, and what swings with it starts on the leaf, beside the bed, at the nose;
// arcs that rise from it touch the bed or the leaf where they begin. What is driven bears on the sheet, and follows it
// so that it only touches (motion.cpp): what is above that is clear.
bool MachineContacts::isIntended(const GroupRecord& group, const Body& tool) const {
    if (liesOnPacked(group, tool)) return true;
    if (tool.driven) return group.driven_bears;
    if (tool.kind == BodyKind::kBarLow || tool.kind == BodyKind::kBarHigh) return group.lies_flat;
    return tool.kind == BodyKind::kBed &&
           (group.moving ? group.lies_flat || (group.is_arc && group.rises && !isLate(group, tool)) : group.rises);
}

// What hangs under the sheet no lower than it is packed up lies over bed and leaf, as what rises lies over the sheet on
// them.
bool MachineContacts::liesOnPacked(const GroupRecord& group, const Body& tool) const {
    const bool under_its_side = tool.driven ? group.moving : tool.kind == BodyKind::kBed && !group.moving;
    return tool.under_sheet_mm > 0 && under_its_side &&
           group.lowest_mm > -tool.under_sheet_mm - kArcSagitta_mm - kFlat_mm;
}

bool MachineContacts::sees(const Body& tool, const GroupRecord& group) const {
    return !tool.driven || (group.driven_sees && !liesOnPacked(group, tool));
}

// An arc that begins on the sheet touches the bed as the stroke begins, and past a right angle it may come down on it:
// clearance is asked from halfway on.
bool MachineContacts::isLate(const GroupRecord& group, const Body& tool) const {
    return tool.kind == BodyKind::kBed && group.moving && group.is_arc && group.rises &&
           geometry_.motions(group.bend).late.has_value();
}

// `close`: solids that may touch.
void MachineContacts::castContact(std::uint32_t record, std::size_t body, const std::vector<std::size_t>& close,
                                  BodyContact& result) {
    const GroupRecord& group = records_.at(record);
    const Body& tool = geometry_.machine().bodies()[body];
    result.known = true;
    result.intended = isIntended(group, tool);
    if (close.empty() || !sees(tool, group)) return;
    const View view = viewOf(group, body, false);
    const std::vector<const ToolPiece*> pieces = piecesWithin(group, view, 0);
    if (pieces.empty()) return;
    const std::vector<SeenSolid>& solids = seenBy(record, body);
    for (const std::size_t i : close) {
        for (const ToolPiece* piece : pieces) castShadow(solids[i], *view.motion, *piece, 0, result.shadow);
    }
    if (tool.kind == BodyKind::kLeaf && group.moving && !result.shadow.inner.empty())
        witnessOnFront(record, body, result.shadow);
}

// The leaf's face gives way, its back does not: taken as drawn back whole, the leaf reaches further back than it does.
// What is witnessed has to meet what is left of it when its face has given way as far as it ever does.
void MachineContacts::witnessOnFront(std::uint32_t record, std::size_t body, Shadow& shadow) {
    const std::size_t packing = geometry_.machine().bodies()[body].packing;
    const Motion& moving = geometry_.motions(records_.at(record).bend).from_driven[packing].moving;
    const double back_mm = moving.mostGiveWay_mm();
    Shadow front;
    for (const ToolPiece& piece : geometry_.machine().bodies()[body].pieces) {
        double low_mm = kBeyond_mm;
        for (const Vec2& corner : piece.section.points()) low_mm = std::min(low_mm, corner.y());
        for (const Polygon& left : between(piece.section.points(), low_mm + back_mm, kBeyond_mm)) {
            const ToolPiece rest(Convex2(left), geometry_.machine().drivenCentre(packing));
            for (const SeenSolid& seen : seenBy(record, body)) castShadow(seen, moving, rest, 0, front);
        }
    }
    shadow.inner = shadow.inner.intersect(front.inner);
}

// Where the group comes nearer than wanted, and which of its solids do.
std::vector<std::size_t> MachineContacts::castNear(std::uint32_t record, std::size_t body, BodyContact& result) {
    std::vector<std::size_t> close;
    const double margin_mm = geometry_.limits().clearance_mm + 2 * kStrictInset_mm;
    const View view = viewOf(records_.at(record), body, true);
    const std::vector<const ToolPiece*> pieces = piecesWithin(records_.at(record), view, margin_mm);
    if (pieces.empty()) return close;
    const std::vector<SeenSolid>& solids = seenBy(record, body);
    Shadow near;
    for (std::size_t i = 0; i < solids.size(); ++i) {
        bool is_close = false;
        for (const ToolPiece* piece : pieces)
            is_close = castShadow(solids[i], *view.motion, *piece, margin_mm, near) || is_close;
        if (is_close) close.push_back(i);
    }
    result.near = std::move(near.outer);
    return close;
}

const FirstContact& MachineContacts::firstContact(std::uint32_t record, std::size_t body) {
    const GroupRecord& group = records_.at(record);
    if (group.congruent != record) return firstContact(group.congruent, body);
    std::optional<FirstContact>& known_first = known(record, body).first;
    if (known_first) return *known_first;
    FirstContact first;
    const View view = viewOf(group, body, false);
    for (const SeenSolid& seen : seenBy(record, body)) {
        for (const ToolPiece& piece : *view.pieces) {
            const double angle_rad = firstContact_rad(seen, *view.motion, piece, first.depth_mm);
            if (angle_rad >= 0 && (first.at_rad < 0 || angle_rad < first.at_rad)) first.at_rad = angle_rad;
        }
    }
    return *(known_first = first);
}

}  // namespace tinwright
