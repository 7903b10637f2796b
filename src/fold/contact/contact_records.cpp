// SPDX-License-Identifier: GPL-3.0-or-later
// The records of ContactCache: groups as they lie before and after a stroke, and their plain ways out.
#include <algorithm>
#include <cmath>
#include <limits>

#include <tinwright/base/hash.h>

#include "contact/contact_cache.h"

namespace tinwright {

namespace {

/// Corners no further apart than this are in the same place: far below what shadows are rounded by.
constexpr double kSame_mm = 1e-7;

template <class Take>
void eachCorner(const std::vector<PrismRings>& solids, const Rigid& pose, Take take) {
    for (const PrismRings& rings : solids) {
        for (const Vec3& corner : rings.bottom) take(Vec3(pose * corner));
        for (const Vec3& corner : rings.top) take(Vec3(pose * corner));
    }
}

Convex2 cornerHull(const std::vector<Vec3>& corners) {
    std::vector<Vec2> section;
    section.reserve(corners.size());
    for (const Vec3& corner : corners) section.emplace_back(corner.y(), corner.z());
    return Convex2(section);
}

void cornersOf(const std::vector<PrismRings>& solids, const Rigid& pose, std::vector<Vec3>& corners) {
    corners.clear();
    eachCorner(solids, pose, [&](const Vec3& corner) { corners.push_back(corner); });
}

class Mixer {
public:
    void add(std::uint64_t value) { value_ = hashed(value_, value); }
    // Lengths of some kilometres, in steps of 10 nm. Values that fall on both sides of a step are taken for different,
    // which only costs a shadow.
    void addLength(double length_mm) {
        constexpr double kMost_mm = 1e7;
        constexpr double kStep_mm = 1e-5;
        add(static_cast<std::uint64_t>((length_mm + kMost_mm + 0.5 * kStep_mm) / kStep_mm));
    }
    [[nodiscard]] std::uint64_t value() const { return value_; }

private:
    std::uint64_t value_ = 0;
};

bool sameRings(const std::vector<PrismRings>& a, const std::vector<PrismRings>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const PrismRings& one, const PrismRings& other) {
        return one.bottom.size() == other.bottom.size() && one.top.size() == other.top.size();
    });
}

}  // namespace

std::uint32_t ContactCache::record(BendId bend, Side hold, std::size_t group, BendMask formed) {
    const Group& what = bodies_.groups()[group];
    const Bend& line = bodies_.part().bend(bend);
    BendMask path = bodies_.path(heldPanel(line, hold), what.frame);
    if (what.is_strip) path |= bit(what.bend);
    const std::size_t slot = (slotOf(bend, hold)) * bodies_.groups().size() + group;
    const auto [entry, is_new] = index_[slot].try_emplace(formed & path & ~bit(bend), 0);
    if (is_new) entry->second = makeRecord(bend, hold, group, formed & path & ~bit(bend));
    return entry->second;
}

std::uint32_t ContactCache::makeRecord(BendId bend, Side hold, std::size_t group, BendMask formed) {
    auto contact = std::make_unique<GroupContact>();
    contact->bend = bend;
    contact->hold = hold;
    contact->group = group;
    contact->formed = formed;
    placeGroup(*contact, bend, hold, formed);
    cornersOf(ringsOf(*contact), contact->pose, scratch_);
    boundAlong(*contact, scratch_);
    if (!findCongruent(*contact, scratch_)) {
        boundAround(*contact, scratch_);
        corners_.emplace(contact->congruent, scratch_);
    }
    records_.push_back(std::move(contact));
    bend_of_record_.push_back(bend);
    return static_cast<std::uint32_t>(records_.size() - 1);
}

// Walls that are alike, lips along a side, tabs in a row: what one meets on its way the others meet too, but for where
// along x. So far as a record's touches go, a group is its corners, the motion of the bend, and which side it is on.
bool ContactCache::findCongruent(GroupContact& contact, const std::vector<Vec3>& corners) {
    Mixer mixer;
    mixer.add(motion_class_[contact.bend.index()]);
    mixer.add(corners.size() * 4 + (contact.moving ? 2 : 0) + (contact.is_arc ? 1 : 0));
    for (const Vec3& corner : corners) {
        mixer.addLength(corner.x() - contact.x_lo_mm);
        mixer.addLength(corner.y());
        mixer.addLength(corner.z());
    }
    std::vector<std::uint32_t>& alike = congruents_[mixer.value()];
    for (const std::uint32_t other : alike) {
        const GroupContact& congruent = *records_[other];
        const Micron from_congruent_um = micronNearest(contact.x_lo_mm - congruent.x_lo_mm);
        if (!areCongruent(contact, corners, congruent, from_congruent_um)) continue;
        contact.congruent = other;
        contact.from_congruent_um = from_congruent_um;
        contact.hull = congruent.hull;
        contact.ring = congruent.ring;
        contact.reach_mm = congruent.reach_mm;
        contact.lies_flat = congruent.lies_flat;
        contact.rises = congruent.rises;
        contact.driven_sees = congruent.driven_sees;
        contact.driven_bears = congruent.driven_bears;
        contact.over_driven_mm = congruent.over_driven_mm;
        return true;
    }
    contact.congruent = static_cast<std::uint32_t>(records_.size());
    alike.push_back(contact.congruent);
    return false;
}

bool ContactCache::areCongruent(const GroupContact& a, const std::vector<Vec3>& corners, const GroupContact& b,
                                Micron from_b_um) const {
    if (motion_class_[a.bend.index()] != motion_class_[b.bend.index()] || a.moving != b.moving || a.is_arc != b.is_arc)
        return false;
    if (!sameRings(ringsOf(a), ringsOf(b))) return false;
    const Vec3 shift(toMm(from_b_um), 0, 0);
    const std::vector<Vec3>& others = corners_.at(b.congruent);
    return std::equal(
        corners.begin(), corners.end(), others.begin(), others.end(),
        [&](const Vec3& one, const Vec3& other) { return (one - other - shift).cwiseAbs().maxCoeff() <= kSame_mm; });
}

const std::vector<PrismRings>& ContactCache::ringsOf(const GroupContact& contact) const {
    const Group& group = bodies_.groups()[contact.group];
    return contact.is_arc ? group.formed : group.flat;
}

void ContactCache::placeGroup(GroupContact& contact, BendId bend, Side hold, BendMask formed) const {
    const Group& group = bodies_.groups()[contact.group];
    const Bend& line = bodies_.part().bend(bend);
    const PanelId held = heldPanel(line, hold);
    contact.moving = contains(bodies_.path(held, group.frame), bend);
    contact.is_arc = group.is_strip && contains(formed, group.bend);
    const PanelId anchor = contact.moving ? movingPanel(line, hold) : held;
    contact.pose = bendFrame(bend, hold) * bodies_.pose(anchor, group.frame, formed);
}

void ContactCache::boundAlong(GroupContact& contact, const std::vector<Vec3>& corners) {
    contact.x_lo_mm = std::numeric_limits<double>::infinity();
    contact.x_hi_mm = -contact.x_lo_mm;
    for (const Vec3& corner : corners) {
        contact.x_lo_mm = std::min(contact.x_lo_mm, corner.x());
        contact.x_hi_mm = std::max(contact.x_hi_mm, corner.x());
    }
}

/// What does not depend on where it lies along x.
void ContactCache::boundAround(GroupContact& contact, const std::vector<Vec3>& corners) const {
    const BendMotions& how = motions(contact.bend);
    const double thickness_mm = bodies_.part().thickness_mm;
    contact.lies_flat = true;
    contact.rises = true;
    for (const Vec3& corner : corners) {
        contact.lies_flat = contact.lies_flat && corner.z() > -kFlat_mm && corner.z() < thickness_mm + kFlat_mm;
        contact.rises = contact.rises && corner.z() > -kArcSagitta_mm - kFlat_mm;  // slices of arcs stand out by their
                                                                                   // sagitta
    }
    contact.hull = std::make_shared<const Convex2>(cornerHull(corners));
    contact.ring = radiusRange(contact.hull->points(), how.swing.centre());
    contact.reach_mm = contact.moving ? how.pair.shiftBound_mm() : 0.0;
    const DrivenView view{contact.moving, contact.rises, contact.ring};
    contact.over_driven_mm = machine_.overDriven_mm(view, how, corners);
    contact.driven_sees = machine_.drivenSees(view, how, contact.over_driven_mm, limits_->clearance_mm);
    contact.driven_bears = machine_.drivenBears(view, contact.driven_sees);
}

const GroupContact& ContactCache::laidOut(std::uint32_t record) {
    GroupContact& contact = *records_[record];
    if (!contact.solids.empty()) return contact;
    const BendMotions& how = motions(bend_of_record_[record]);
    const std::vector<PrismRings>& rings = ringsOf(contact);
    contact.solids.reserve(rings.size());
    contact.seen.reserve(rings.size());
    for (const PrismRings& one : rings) contact.solids.emplace_back(one, contact.pose);
    for (const Solid& solid : contact.solids) contact.seen.emplace_back(solid, contact.moving ? how.moving : how.held);
    if (!contact.driven_sees) return contact;
    contact.from_driven.reserve(rings.size());
    for (const Solid& solid : contact.solids)
        contact.from_driven.emplace_back(solid, contact.moving ? how.moving_from_driven : how.held_from_driven);
    return contact;
}

// Where the held side lies still, the moving one goes as seen from what stands still.
const std::vector<SeenSolid>& ContactCache::pairedSeen(std::uint32_t moving) {
    laidOut(moving);
    GroupContact& contact = *records_[moving];
    if (!machine_.movesBothSides()) return contact.seen;
    if (contact.paired.empty()) {
        for (const Solid& solid : contact.solids)
            contact.paired.emplace_back(solid, motions(bend_of_record_[moving]).pair);
    }
    return contact.paired;
}

bool ContactCache::moves(const GroupContact& contact) const { return contact.moving || machine_.movesBothSides(); }

Rigid ContactCache::poseIn(std::uint32_t record, Phase phase) const {
    const GroupContact& contact = *records_[record];
    if (!moves(contact) || phase == Phase::kBefore) return contact.pose;
    const BendId bend = bend_of_record_[record];
    return sideSwungBy(machine_, motions(bend), contact.moving, bodies_.part().bend(bend).angle.rad()) * contact.pose;
}

const std::vector<Solid>& ContactCache::atRest(std::uint32_t record, Phase phase) {
    GroupContact& contact = *records_[record];
    if (!moves(contact) || phase == Phase::kBefore) return laidOut(record).solids;
    if (!contact.after.empty()) return contact.after;
    const Rigid pose = poseIn(record, phase);
    for (const PrismRings& one : ringsOf(contact)) contact.after.emplace_back(one, pose);
    return contact.after;
}

const PlainExit& ContactCache::plainExit(std::uint32_t record, Phase phase) {
    const GroupContact& contact = *records_[record];
    auto& slot = records_[record]->exits[moves(contact) && phase == Phase::kAfter ? 1 : 0];
    if (slot) return *slot;
    slot = std::make_unique<PlainExit>(contact.congruent == record ? computeExit(record, phase)
                                                                   : plainExit(contact.congruent, phase));
    for (IntervalSet& bars : slot->bars) bars = bars.shifted(contact.from_congruent_um);
    slot->bodies = slot->bodies.shifted(contact.from_congruent_um);
    return *slot;
}

PlainExit ContactCache::computeExit(std::uint32_t record, Phase phase) {
    PlainExit exit;
    exit.bars.resize(machine_.families().size());
    cornersOf(ringsOf(*records_[record]), poseIn(record, phase), scratch_);
    const Convex2 hull = cornerHull(scratch_);
    if (plain_exits_.clearOfBars(hull) && plain_exits_.clearOfBodies(hull)) return exit;
    const std::vector<Solid>& solids = atRest(record, phase);
    for (std::size_t family = 0; family < exit.bars.size(); ++family)
        exit.bars[family] = plain_exits_.bars(family, solids);
    exit.bodies = plain_exits_.bodies(solids);
    return exit;
}

}  // namespace tinwright
