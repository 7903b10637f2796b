// SPDX-License-Identifier: GPL-3.0-or-later
#include "contact/group_records.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include <tinwright/base/hash.h>

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

void boundAlong(GroupRecord& record, const std::vector<Vec3>& corners) {
    record.x_lo_mm = std::numeric_limits<double>::infinity();
    record.x_hi_mm = -record.x_lo_mm;
    for (const Vec3& corner : corners) {
        record.x_lo_mm = std::min(record.x_lo_mm, corner.x());
        record.x_hi_mm = std::max(record.x_hi_mm, corner.x());
    }
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

void cornersOf(const std::vector<PrismRings>& solids, const Rigid& pose, std::vector<Vec3>& corners) {
    corners.clear();
    eachCorner(solids, pose, [&](const Vec3& corner) { corners.push_back(corner); });
}

Convex2 cornerHull(const std::vector<Vec3>& corners) {
    std::vector<Vec2> section;
    section.reserve(corners.size());
    for (const Vec3& corner : corners) section.emplace_back(corner.y(), corner.z());
    return Convex2(section);
}

GroupRecords::GroupRecords(const StrokeGeometry& geometry) : geometry_(geometry) {
    index_.resize(geometry.part().bends.size() * 2 * geometry.bodies().groups().size());
}

std::uint32_t GroupRecords::of(BendId bend, Side hold, std::size_t group, BendMask formed) {
    const Group& what = geometry_.bodies().groups()[group];
    const Bend& line = geometry_.part().bend(bend);
    BendMask path = geometry_.bodies().path(heldPanel(line, hold), what.frame);
    if (what.is_strip) path |= bit(what.bend);
    const std::size_t slot = (slotOf(bend, hold)) * geometry_.bodies().groups().size() + group;
    const auto [entry, is_new] = index_[slot].try_emplace(formed & path & ~bit(bend), 0);
    if (is_new) entry->second = make(bend, hold, group, formed & path & ~bit(bend));
    return entry->second;
}

std::uint32_t GroupRecords::make(BendId bend, Side hold, std::size_t group, BendMask formed) {
    auto record = std::make_unique<GroupRecord>();
    record->bend = bend;
    record->hold = hold;
    record->group = group;
    record->formed = formed;
    place(*record);
    cornersOf(ringsOf(*record), record->pose, scratch_);
    boundAlong(*record, scratch_);
    if (!findCongruent(*record, scratch_)) {
        boundAround(*record, scratch_);
        corners_.emplace(record->congruent, scratch_);
    }
    records_.push_back(std::move(record));
    return static_cast<std::uint32_t>(records_.size() - 1);
}

// Walls that are alike, lips along a side, tabs in a row: what one meets on its way the others meet too, but for where
// along x. So far as a record's touches go, a group is its corners, the motion of the bend, and which side it is on.
bool GroupRecords::findCongruent(GroupRecord& record, const std::vector<Vec3>& corners) {
    Mixer mixer;
    mixer.add(geometry_.motionClass(record.bend));
    mixer.add(corners.size() * 4 + (record.moving ? 2 : 0) + (record.is_arc ? 1 : 0));
    for (const Vec3& corner : corners) {
        mixer.addLength(corner.x() - record.x_lo_mm);
        mixer.addLength(corner.y());
        mixer.addLength(corner.z());
    }
    std::vector<std::uint32_t>& alike = congruents_[mixer.value()];
    for (const std::uint32_t other : alike) {
        const GroupRecord& congruent = *records_[other];
        const Micron from_congruent_um = micronNearest(record.x_lo_mm - congruent.x_lo_mm);
        if (!areCongruent(record, corners, congruent, from_congruent_um)) continue;
        record.congruent = other;
        record.from_congruent_um = from_congruent_um;
        record.hull = congruent.hull;
        record.ring = congruent.ring;
        record.reach_mm = congruent.reach_mm;
        record.lies_flat = congruent.lies_flat;
        record.rises = congruent.rises;
        record.lowest_mm = congruent.lowest_mm;
        record.driven_sees = congruent.driven_sees;
        record.driven_bears = congruent.driven_bears;
        record.over_driven_mm = congruent.over_driven_mm;
        return true;
    }
    record.congruent = static_cast<std::uint32_t>(records_.size());
    alike.push_back(record.congruent);
    return false;
}

bool GroupRecords::areCongruent(const GroupRecord& a, const std::vector<Vec3>& corners, const GroupRecord& b,
                                Micron from_b_um) const {
    if (geometry_.motionClass(a.bend) != geometry_.motionClass(b.bend) || a.moving != b.moving || a.is_arc != b.is_arc)
        return false;
    if (!sameRings(ringsOf(a), ringsOf(b))) return false;
    const Vec3 shift(toMm(from_b_um), 0, 0);
    const std::vector<Vec3>& others = corners_.at(b.congruent);
    return std::equal(
        corners.begin(), corners.end(), others.begin(), others.end(),
        [&](const Vec3& one, const Vec3& other) { return (one - other - shift).cwiseAbs().maxCoeff() <= kSame_mm; });
}

const std::vector<PrismRings>& GroupRecords::ringsOf(const GroupRecord& record) const {
    const Group& group = geometry_.bodies().groups()[record.group];
    return record.is_arc ? group.formed : group.flat;
}

void GroupRecords::place(GroupRecord& record) const {
    const PartBodies& bodies = geometry_.bodies();
    const Group& group = bodies.groups()[record.group];
    const Bend& line = geometry_.part().bend(record.bend);
    const PanelId held = heldPanel(line, record.hold);
    record.moving = contains(bodies.path(held, group.frame), record.bend);
    record.is_arc = group.is_strip && contains(record.formed, group.bend);
    const PanelId anchor = record.moving ? movingPanel(line, record.hold) : held;
    record.pose = geometry_.bendFrame(record.bend, record.hold) * bodies.pose(anchor, group.frame, record.formed);
}

/// What does not depend on where it lies along x.
void GroupRecords::boundAround(GroupRecord& record, const std::vector<Vec3>& corners) const {
    const BendMotions& how = geometry_.motions(record.bend);
    const double thickness_mm = geometry_.part().thickness_mm;
    record.lies_flat = true;
    record.rises = true;
    record.lowest_mm = thickness_mm;
    for (const Vec3& corner : corners) {
        record.lies_flat = record.lies_flat && corner.z() > -kFlat_mm && corner.z() < thickness_mm + kFlat_mm;
        record.lowest_mm = std::min(record.lowest_mm, corner.z());
        record.rises = record.rises && corner.z() > -kArcSagitta_mm - kFlat_mm;  // slices of arcs stand out by their
                                                                                 // sagitta
    }
    record.hull = std::make_shared<const Convex2>(cornerHull(corners));
    record.ring = radiusRange(record.hull->points(), how.swing.centre());
    record.reach_mm = record.moving ? how.pair.shiftBound_mm() : 0.0;
    const DrivenView view{record.moving, record.rises, record.ring};
    record.over_driven_mm = geometry_.machine().overDriven_mm(view, how, corners);
    record.driven_sees =
        geometry_.machine().drivenSees(view, how, record.over_driven_mm, geometry_.limits().clearance_mm);
    record.driven_bears = geometry_.machine().drivenBears(view, record.driven_sees);
}

const GroupRecord& GroupRecords::laidOut(std::uint32_t index) {
    GroupRecord& record = *records_[index];
    if (!record.solids.empty()) return record;
    const BendMotions& how = geometry_.motions(record.bend);
    const std::vector<PrismRings>& rings = ringsOf(record);
    record.solids.reserve(rings.size());
    record.seen.reserve(rings.size());
    for (const PrismRings& one : rings) record.solids.emplace_back(one, record.pose);
    for (const Solid& solid : record.solids) record.seen.emplace_back(solid, record.moving ? how.moving : how.held);
    if (!record.driven_sees) return record;
    record.from_driven.resize(how.from_driven.size());
    for (std::size_t packing = 0; packing < how.from_driven.size(); ++packing) {
        const DrivenMotions& driven = how.from_driven[packing];
        record.from_driven[packing].reserve(rings.size());
        for (const Solid& solid : record.solids)
            record.from_driven[packing].emplace_back(solid, record.moving ? driven.moving : driven.held);
    }
    return record;
}

// Where the held side lies still, the moving one goes as seen from what stands still.
const std::vector<SeenSolid>& GroupRecords::pairedSeen(std::uint32_t moving) {
    laidOut(moving);
    GroupRecord& record = *records_[moving];
    if (!geometry_.machine().movesBothSides()) return record.seen;
    if (record.paired.empty()) {
        for (const Solid& solid : record.solids) record.paired.emplace_back(solid, geometry_.motions(record.bend).pair);
    }
    return record.paired;
}

Rigid GroupRecords::poseIn(std::uint32_t index, Phase phase) const {
    const GroupRecord& record = *records_[index];
    if (!moves(record) || phase == Phase::kBefore) return record.pose;
    const BendId bend = record.bend;
    return sideSwungBy(geometry_.machine(), geometry_.motions(bend), record.moving,
                       geometry_.part().bend(bend).angle.rad()) *
           record.pose;
}

const std::vector<Solid>& GroupRecords::atRest(std::uint32_t index, Phase phase) {
    GroupRecord& record = *records_[index];
    if (!moves(record) || phase == Phase::kBefore) return laidOut(index).solids;
    if (!record.after.empty()) return record.after;
    const Rigid pose = poseIn(index, phase);
    for (const PrismRings& one : ringsOf(record)) record.after.emplace_back(one, pose);
    return record.after;
}

}  // namespace tinwright
