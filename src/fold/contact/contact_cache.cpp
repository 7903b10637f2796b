// SPDX-License-Identifier: GPL-3.0-or-later
#include "contact/contact_cache.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <utility>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>

#include "machine/machine_sections.h"

namespace tinwright {

namespace {

constexpr double kPi = std::numbers::pi;

/// Slices of a bend's strip as the cache makes them.
class OwnStrip final : public StripSlices {
public:
    OwnStrip(ContactCache& cache, BendId bend, Side hold) : cache_(cache), bend_(bend), hold_(hold) {}
    [[nodiscard]] std::vector<Solid> at(Angle angle, const Rigid& then) const override {
        return cache_.slicesAt(bend_, hold_, angle, 0, then);
    }
    [[nodiscard]] const std::vector<Solid>& bent() const override { return cache_.ownSlices(bend_, hold_); }

private:
    ContactCache& cache_;
    BendId bend_;
    Side hold_;
};

}  // namespace

ContactCache::ContactCache(const PartOnBrake& folded, const Shop& shop, std::unique_ptr<const Machine> machine,
                           const std::vector<double>& radii_mm)
    : bodies_(folded.part(), machine->brake().inside_radius_mm(), radii_mm),
      owned_machine_(std::move(machine)),
      machine_(*owned_machine_),
      plain_exits_(machine_),
      limits_(&shop.limits) {
    const Part& part = folded.part();
    for (const Bend& bend : part.bends) {
        // An angle past what the machine folds is refused before its motion is asked for; the cap keeps spans under
        // half a turn.
        const double set_rad = std::min(
            bend.angle.rad() + shop.overbendFor_deg(part.material, *machine_.brake()) * kPi / 180.0, kPi - 1e-3);
        motions_.push_back(std::make_unique<BendMotions>(machine_, bend.allowance_mm, set_rad));
    }
    for (std::size_t i = 0; i < part.bends.size(); ++i) motion_class_.push_back(firstThatGoesAs(i));
    index_.resize(part.bends.size() * 2 * bodies_.groups().size());
    own_strips_.resize(part.bends.size() * 2);
    sprung_strips_.resize(part.bends.size() * 2);
    clamped_widths_.resize(part.bends.size() * 2);
    const BendMask all = allFormed(part);
    for (const Group& group : bodies_.groups()) {
        std::vector<Solid> solids;
        const Rigid pose = bodies_.pose(idAt<PanelId>(0), group.frame, all);
        for (const PrismRings& rings : group.is_strip ? group.formed : group.flat) solids.emplace_back(rings, pose);
        finished_.push_back(std::move(solids));
    }
}

// The bend's frame does not count, nor which way the bend goes: only what the motions are made of.
std::size_t ContactCache::firstThatGoesAs(std::size_t bend) const {
    const std::vector<Bend>& bends = bodies_.part().bends;
    std::size_t first = 0;
    while (bends[first].allowance_mm != bends[bend].allowance_mm || bends[first].angle != bends[bend].angle) ++first;
    return first;
}

BodyContact& ContactCache::known(std::uint32_t record, std::size_t body) {
    std::vector<BodyContact>& bodies = records_[record]->bodies;
    if (bodies.empty()) bodies.resize(machine_.bodies().size());
    return bodies[body];
}

const BodyContact& ContactCache::contact(std::uint32_t record, std::size_t body) {
    const GroupContact& contact = *records_[record];
    if (contact.from_congruent_um == 0 && contact.congruent != record) return this->contact(contact.congruent, body);
    BodyContact& result = known(record, body);
    if (result.known) return result;
    if (contact.congruent != record) {
        const BodyContact& congruents = this->contact(contact.congruent, body);
        result.known = true;
        result.intended = congruents.intended;
        result.shadow = {congruents.shadow.outer.shifted(contact.from_congruent_um),
                         congruents.shadow.inner.shifted(contact.from_congruent_um)};
        return result;
    }
    std::vector<std::size_t> all(ringsOf(contact).size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    castContact(record, body, all, result);
    return result;
}

// What does not come nearer than wanted does not touch either.
const BodyContact& ContactCache::contactAndNear(std::uint32_t record, std::size_t body) {
    const GroupContact& contact = *records_[record];
    if (contact.from_congruent_um == 0 && contact.congruent != record) return contactAndNear(contact.congruent, body);
    BodyContact& result = known(record, body);
    if (result.near_known) return result;
    result.near_known = true;
    if (contact.congruent != record) {
        result.near = contactAndNear(contact.congruent, body).near.shifted(contact.from_congruent_um);
        return this->contact(record, body);
    }
    const Body& tool = machine_.bodies()[body];
    if (isIntended(contact, tool) || (tool.driven && !contact.driven_sees)) return this->contact(record, body);
    const std::vector<std::size_t> close = castNear(record, body, result);
    if (isLate(contact, tool))
        static_cast<void>(this->contact(record, body));  // contact is asked over all of the stroke
    if (!result.known) castContact(record, body, close, result);
    result.near.add(result.shadow.outer);
    return result;
}

const std::vector<std::uint32_t>& ContactCache::familiesMet(std::uint32_t record, bool wanted) {
    if (const std::uint32_t congruent = records_[record]->congruent; congruent != record)
        return familiesMet(congruent, wanted);
    std::optional<std::vector<std::uint32_t>>& met =
        wanted ? records_[record]->families_near : records_[record]->families_met;
    if (met) return *met;
    const auto isMet = [&](std::size_t body) {
        const BodyContact& found = wanted ? contactAndNear(record, body) : contact(record, body);
        return !found.shadow.outer.empty() || (wanted && !found.near.empty());
    };
    std::vector<std::uint32_t> families;
    for (std::size_t f = 0; f < machine_.families().size(); ++f) {
        const BarFamily& family = machine_.families()[f];
        const bool high = isMet(family.high);
        if ((family.low >= 0 && isMet(static_cast<std::size_t>(family.low))) || high)
            families.push_back(static_cast<std::uint32_t>(f));
    }
    return *(met = std::move(families));
}

ContactCache::View ContactCache::viewOf(const GroupContact& contact, const BendMotions& motions, std::size_t body,
                                        bool strict) const {
    const Body& tool = machine_.bodies()[body];
    const ToolPieces* pieces = strict ? &tool.strict : &tool.pieces;
    if (tool.driven) return {contact.moving ? &motions.moving_from_driven : &motions.held_from_driven, pieces};
    if (strict && isLate(contact, tool)) return {&*motions.late, pieces};
    return {contact.moving ? &motions.moving : &motions.held, pieces};
}

const std::vector<SeenSolid>& ContactCache::seenBy(std::uint32_t record, std::size_t body) {
    const GroupContact& contact = laidOut(record);
    return machine_.bodies()[body].driven ? contact.from_driven : contact.seen;
}

// Pieces of a tool that the group, taken as one, is not proven to keep away from; most keep away from most.
std::vector<const ToolPiece*> ContactCache::piecesWithin(const GroupContact& contact, const View& view,
                                                         double margin_mm) {
    std::vector<const ToolPiece*> result;
    const SeenSection whole(*contact.hull, *view.motion);
    for (const ToolPiece& piece : *view.pieces) {
        if (!staysClear(whole, *view.motion, piece.section, piece.ring, margin_mm, kQuickDepth))
            result.push_back(&piece);
    }
    return result;
}

// The sheet on the bed lies under the bars, and what swings with it starts on the leaf, beside the bed, at the nose;
// arcs that rise from it touch the bed or the leaf where they begin. What is driven bears on the sheet, and follows it
// so that it only touches (motion.cpp): what is above that is clear.
bool ContactCache::isIntended(const GroupContact& contact, const Body& tool) const {
    if (tool.driven) return contact.driven_bears;
    if (tool.kind == BodyKind::kBarLow || tool.kind == BodyKind::kBarHigh) return contact.lies_flat;
    return tool.kind == BodyKind::kBed &&
           (contact.moving ? contact.lies_flat || (contact.is_arc && contact.rises && !isLate(contact, tool))
                           : contact.rises);
}

// An arc that begins on the sheet touches the bed as the stroke begins, and past a right angle it may come down on it:
// clearance is asked from halfway on.
bool ContactCache::isLate(const GroupContact& contact, const Body& tool) const {
    return tool.kind == BodyKind::kBed && contact.moving && contact.is_arc && contact.rises &&
           motions(contact.bend).late.has_value();
}

// `close`: solids that may touch.
void ContactCache::castContact(std::uint32_t record, std::size_t body, const std::vector<std::size_t>& close,
                               BodyContact& result) {
    const GroupContact& contact = *records_[record];
    const Body& tool = machine_.bodies()[body];
    const bool bar = tool.kind == BodyKind::kBarLow || tool.kind == BodyKind::kBarHigh;
    result.known = true;
    result.intended = isIntended(contact, tool);
    if (close.empty() || (tool.driven && !contact.driven_sees)) return;
    const View view = viewOf(contact, motions(bend_of_record_[record]), body, bar && contact.is_arc);
    const std::vector<const ToolPiece*> pieces = piecesWithin(contact, view, 0);
    if (pieces.empty()) return;
    const std::vector<SeenSolid>& solids = seenBy(record, body);
    for (const std::size_t i : close) {
        for (const ToolPiece* piece : pieces) castShadow(solids[i], *view.motion, *piece, 0, result.shadow);
    }
    if (tool.kind == BodyKind::kLeaf && contact.moving && !result.shadow.inner.empty())
        witnessOnFront(record, body, result.shadow);
}

// The leaf's face gives way, its back does not: taken as drawn back whole, the leaf reaches further back than it does.
// What is witnessed has to meet what is left of it when its face has given way as far as it ever does.
void ContactCache::witnessOnFront(std::uint32_t record, std::size_t body, Shadow& shadow) {
    const BendMotions& how = motions(bend_of_record_[record]);
    const double back_mm = how.moving_from_driven.mostGiveWay_mm();
    Shadow front;
    for (const ToolPiece& piece : machine_.bodies()[body].pieces) {
        double low_mm = kBeyond_mm;
        for (const Vec2& corner : piece.section.points()) low_mm = std::min(low_mm, corner.y());
        for (const Polygon& left : between(piece.section.points(), low_mm + back_mm, kBeyond_mm)) {
            const ToolPiece rest(Convex2(left), machine_.drivenCentre());
            for (const SeenSolid& seen : seenBy(record, body)) castShadow(seen, how.moving_from_driven, rest, 0, front);
        }
    }
    shadow.inner = shadow.inner.intersect(front.inner);
}

// Where the group comes nearer than wanted, and which of its solids do.
std::vector<std::size_t> ContactCache::castNear(std::uint32_t record, std::size_t body, BodyContact& result) {
    std::vector<std::size_t> close;
    const double margin_mm = limits_->clearance_mm + 2 * kStrictInset_mm;
    const View view = viewOf(*records_[record], motions(bend_of_record_[record]), body, true);
    const std::vector<const ToolPiece*> pieces = piecesWithin(*records_[record], view, margin_mm);
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

double ContactCache::firstContact_rad(std::uint32_t record, std::size_t body, double& depth_mm) {
    const View view = viewOf(*records_[record], motions(bend_of_record_[record]), body, false);
    double first = -1;
    for (const SeenSolid& seen : seenBy(record, body)) {
        for (const ToolPiece& piece : *view.pieces) {
            const double angle = tinwright::firstContact_rad(seen, *view.motion, piece, depth_mm);
            if (angle >= 0 && (first < 0 || angle < first)) first = angle;
        }
    }
    return first;
}

bool ContactCache::familyFits(BendId bend, Side hold, std::size_t family, std::size_t leaf_face) {
    const BarFamily& bars = machine_.families()[family];
    const auto [entry, is_new] =
        fits_.try_emplace({bend.index(), static_cast<std::size_t>(hold), bars.high, leaf_face}, true);
    if (!is_new) return entry->second;
    return entry->second = machine_.fits(family, leaf_face, motions(bend), OwnStrip(*this, bend, hold));
}

bool ContactCache::drivenClearsBeam(BendId bend, std::size_t leaf_face) {
    if (machine_.beam() < 0) return true;
    const auto beam = static_cast<std::size_t>(machine_.beam());
    const auto [entry, is_new] = fits_.try_emplace({bend.index(), 0, beam, leaf_face}, true);
    if (is_new)
        entry->second = machine_.drivenClears(machine_.driven(leaf_face), beam, motions(bend).standing_from_driven);
    return entry->second;
}

const std::vector<Solid>& ContactCache::sprungSlices(BendId bend, Side hold) {
    auto& slot = sprung_strips_[slotOf(bend, hold)];
    if (!slot) {
        const Angle angle = bodies_.part().bend(bend).angle;
        slot = std::make_unique<std::vector<Solid>>(
            slicesAt(bend, hold, angle, 0, sideSwungBy(machine_, motions(bend), false, angle.rad())));
    }
    return *slot;
}

StripContact ContactCache::ownStrip(BendId bend, Side hold, std::uint32_t record, Micron shift_um) {
    const GroupContact& contact = *records_[record];
    // The strip stays within this distance of the nose centre.
    const double reach = motions(bend).swing.centre().y() + kRounding_mm;
    if (contact.ring.least_mm - contact.reach_mm > reach) return StripContact::kClear;
    const auto [entry, is_new] = strip_contacts_.try_emplace(
        {bend.value * 2 + static_cast<std::uint32_t>(hold), record, shift_um}, StripContact::kClear);
    if (!is_new) return entry->second;
    const BendId of = bend_of_record_[record];
    const Rigid pose = contact.moving ? Rigid(swungBy(motions(of), set_rad(of)) * contact.pose) : contact.pose;  // seen
                                                                                                                 // from
                                                                                                                 // the
                                                                                                                 // held
                                                                                                                 // side
    const std::vector<Solid> moved = shift_um == 0 ? std::vector<Solid>() : shifted(ownSlices(bend, hold), shift_um);
    const std::vector<Solid>& slices = shift_um == 0 ? ownSlices(bend, hold) : moved;
    for (const PrismRings& rings : ringsOf(contact)) {
        const Solid solid(rings, pose);
        for (const Solid& slice : slices) {
            if (liesBeyond(slice, solid, -kContactTolerance_mm)) continue;
            entry->second = StripContact::kUnclear;
            if (!liesBeyond(slice, solid, -kContactTolerance_mm - 2 * kArcSagitta_mm))
                return entry->second = StripContact::kHit;
        }
    }
    return entry->second;
}

std::vector<Solid> ContactCache::shifted(const std::vector<Solid>& solids, Micron shift_um) {
    std::vector<Solid> result;
    result.reserve(solids.size());
    for (const Solid& solid : solids) result.push_back(shift_um == 0 ? solid : solid.movedAlongX(toMm(shift_um)));
    return result;
}

ContactCache::PairKey ContactCache::congruentOf(std::uint32_t moving, std::uint32_t held, Micron shift_um) const {
    const GroupContact& a = *records_[moving];
    const GroupContact& b = *records_[held];
    return {a.congruent, b.congruent, shift_um + a.from_congruent_um - b.from_congruent_um};
}

const PairContact& ContactCache::pair(std::uint32_t moving, std::uint32_t held, Micron shift_um) {
    const PairKey congruents = congruentOf(moving, held, shift_um);
    const auto [entry, is_new] = pairs_.try_emplace(congruents);
    if (is_new) entry->second = computePair(congruents.moving, congruents.held, congruents.shift_um);
    return entry->second;
}

bool ContactCache::groupsBeyond(double cap_mm, const GroupContact& moving, const GroupContact& held,
                                const Motion& motion) {
    return staysClear(SeenSection(*moving.hull, motion), motion, *held.hull,
                      radiusRange(held.hull->points(), motion.centre()), cap_mm, kQuickDepth);
}

PairContact ContactCache::computePair(std::uint32_t moving, std::uint32_t held, Micron shift_um) {
    PairContact result;
    const Motion& motion = motions(bend_of_record_[moving]).pair;
    const double wanted = limits_->clearance_mm;
    if (groupsBeyond(wanted, *records_[moving], *records_[held], motion)) return result;
    for (const Solid& solid : shifted(laidOut(held).solids, -shift_um)) {
        for (const SeenSolid& seen : pairedSeen(moving)) {
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

Rigid ContactCache::bendFrame(BendId bend, Side hold) const {
    return foldFromBlank(bodies_.part().bend(bend), hold, bodies_.part().thickness_mm, motions(bend).strip_back_mm);
}

const std::vector<Solid>& ContactCache::ownSlices(BendId bend, Side hold) {
    auto& slot = own_strips_[slotOf(bend, hold)];
    if (!slot) slot = std::make_unique<std::vector<Solid>>(slicesAt(bend, hold, Angle::radians(set_rad(bend)), 0));
    return *slot;
}

std::vector<Solid> ContactCache::slicesAt(BendId bend, Side hold, Angle angle, double longer_mm,
                                          const Rigid& then) const {
    const Bend& line = bodies_.part().bend(bend);
    Rigid pose = then * bendFrame(bend, hold);
    if (hold == Side::kChild)
        pose = pose * parentFromChild(line, bodies_.part().thickness_mm, angle, bodies_.nose_radius_mm()).inverse();
    std::vector<Solid> slices;
    const Vec3 by(longer_mm * line.along.x(), longer_mm * line.along.y(), 0);
    for (PrismRings& rings : bodies_.arcOf(bend, angle)) {
        for (Vec3& corner : rings.bottom) corner -= by;
        for (Vec3& corner : rings.top) corner += by;
        slices.emplace_back(rings, pose);
    }
    return slices;
}

}  // namespace tinwright
