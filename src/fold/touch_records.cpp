// SPDX-License-Identifier: GPL-3.0-or-later
// The records of TouchTable: groups as they lie before and after a stroke, and their plain ways out.
#include <algorithm>
#include <cmath>
#include <limits>

#include "touch_table.h"

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

Convex2 hullOf(const std::vector<Vec3>& corners) {
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
    void add(std::uint64_t value) {
        value_ = (value_ ^ value) * 0x9e3779b97f4a7c15ULL;
        value_ ^= value_ >> 29;
    }
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

std::uint32_t TouchTable::record(BendId bend, int hold, std::size_t group, BendMask formed) {
    const Group& what = bodies_.groups()[group];
    const Bend& line = bodies_.part().bend(bend);
    BendMask path = bodies_.path(heldPanel(line, hold), what.frame);
    if (what.is_strip) path |= bit(what.bend);
    const std::size_t slot = (bend.index() * 2 + static_cast<std::size_t>(hold)) * bodies_.groups().size() + group;
    const auto [entry, is_new] = index_[slot].try_emplace(formed & path & ~bit(bend), 0);
    if (is_new) entry->second = makeRecord(bend, hold, group, formed & path & ~bit(bend));
    return entry->second;
}

std::uint32_t TouchTable::makeRecord(BendId bend, int hold, std::size_t group, BendMask formed) {
    auto touch = std::make_unique<GroupTouch>();
    touch->bend = bend;
    touch->hold = hold;
    touch->group = group;
    touch->formed = formed;
    placeGroup(*touch, bend, hold, formed);
    cornersOf(ringsOf(*touch), touch->pose, scratch_);
    boundAlong(*touch, scratch_);
    if (!findTwin(*touch, scratch_)) {
        boundAround(*touch, scratch_);
        corners_.emplace(touch->twin, scratch_);
    }
    records_.push_back(std::move(touch));
    bend_of_record_.push_back(bend);
    return static_cast<std::uint32_t>(records_.size() - 1);
}

// Walls that are alike, lips along a side, tabs in a row: what one meets on its way the others meet too, but for where
// along x. So far as a record's touches go, a group is its corners, the motion of the bend, and which side it is on.
bool TouchTable::findTwin(GroupTouch& touch, const std::vector<Vec3>& corners) {
    Mixer mixer;
    mixer.add(motion_class_[touch.bend.index()]);
    mixer.add(corners.size() * 4 + (touch.moving ? 2 : 0) + (touch.is_arc ? 1 : 0));
    for (const Vec3& corner : corners) {
        mixer.addLength(corner.x() - touch.x_lo_mm);
        mixer.addLength(corner.y());
        mixer.addLength(corner.z());
    }
    std::vector<std::uint32_t>& alike = twins_[mixer.value()];
    for (const std::uint32_t other : alike) {
        const GroupTouch& twin = *records_[other];
        const Micron from_twin_um = micronNearest(touch.x_lo_mm - twin.x_lo_mm);
        if (!areTwins(touch, corners, twin, from_twin_um)) continue;
        touch.twin = other;
        touch.from_twin_um = from_twin_um;
        touch.hull = twin.hull;
        touch.ring = twin.ring;
        touch.reach_mm = twin.reach_mm;
        touch.lies_flat = twin.lies_flat;
        touch.rises = twin.rises;
        touch.driven_sees = twin.driven_sees;
        touch.over_dies_mm = twin.over_dies_mm;
        return true;
    }
    touch.twin = static_cast<std::uint32_t>(records_.size());
    alike.push_back(touch.twin);
    return false;
}

bool TouchTable::areTwins(const GroupTouch& a, const std::vector<Vec3>& corners, const GroupTouch& b,
                          Micron from_b_um) const {
    if (motion_class_[a.bend.index()] != motion_class_[b.bend.index()] || a.moving != b.moving || a.is_arc != b.is_arc)
        return false;
    if (!sameRings(ringsOf(a), ringsOf(b))) return false;
    const Vec3 shift(toMm(from_b_um), 0, 0);
    const std::vector<Vec3>& others = corners_.at(b.twin);
    return std::equal(
        corners.begin(), corners.end(), others.begin(), others.end(),
        [&](const Vec3& one, const Vec3& other) { return (one - other - shift).cwiseAbs().maxCoeff() <= kSame_mm; });
}

const std::vector<PrismRings>& TouchTable::ringsOf(const GroupTouch& touch) const {
    const Group& group = bodies_.groups()[touch.group];
    return touch.is_arc ? group.formed : group.flat;
}

void TouchTable::placeGroup(GroupTouch& touch, BendId bend, int hold, BendMask formed) const {
    const Group& group = bodies_.groups()[touch.group];
    const Bend& line = bodies_.part().bend(bend);
    const PanelId held = heldPanel(line, hold);
    touch.moving = contains(bodies_.path(held, group.frame), bend);
    touch.is_arc = group.is_strip && contains(formed, group.bend);
    const PanelId anchor = touch.moving ? movingPanel(line, hold) : held;
    touch.pose = bendFrame(bend, hold) * bodies_.pose(anchor, group.frame, formed);
}

void TouchTable::boundAlong(GroupTouch& touch, const std::vector<Vec3>& corners) {
    touch.x_lo_mm = std::numeric_limits<double>::infinity();
    touch.x_hi_mm = -touch.x_lo_mm;
    for (const Vec3& corner : corners) {
        touch.x_lo_mm = std::min(touch.x_lo_mm, corner.x());
        touch.x_hi_mm = std::max(touch.x_hi_mm, corner.x());
    }
}

/// What does not depend on where it lies along x.
void TouchTable::boundAround(GroupTouch& touch, const std::vector<Vec3>& corners) const {
    const BendMotions& how = motions(touch.bend);
    const double thickness_mm = bodies_.part().thickness_mm;
    touch.lies_flat = true;
    touch.rises = true;
    for (const Vec3& corner : corners) {
        touch.lies_flat = touch.lies_flat && corner.z() > -kFlat_mm && corner.z() < thickness_mm + kFlat_mm;
        touch.rises = touch.rises && corner.z() > -kArcSagitta_mm - kFlat_mm;  // slices of arcs stand out by their
                                                                               // sagitta
    }
    touch.hull = std::make_shared<const Convex2>(hullOf(corners));
    touch.ring = radiusRange(touch.hull->points(), how.swing.centre());
    touch.reach_mm = touch.moving ? how.pair.shiftBound_mm() : 0.0;
    if (machine_.isPress() && touch.rises) touch.over_dies_mm = overDies_mm(touch, how, corners);
    touch.driven_sees = drivenSees(touch, how);
}

bool TouchTable::drivenSees(const GroupTouch& touch, const BendMotions& motions) const {
    if (machine_.isPress()) return !touch.rises || touch.over_dies_mm < limits_->clearance_mm;
    return touch.moving ? !touch.rises : leafComesNear(touch, motions);
}

bool TouchTable::leafComesNear(const GroupTouch& touch, const BendMotions& motions) const {
    const double reach =
        leaf_reach_mm_ + (machine_.hinge() - motions.swing.centre()).norm() + kClearanceCap_mm + limits_->clearance_mm;
    return touch.ring.least_mm <= reach;
}

const GroupTouch& TouchTable::laidOut(std::uint32_t record) {
    GroupTouch& touch = *records_[record];
    if (!touch.solids.empty()) return touch;
    const BendMotions& how = motions(bend_of_record_[record]);
    const std::vector<PrismRings>& rings = ringsOf(touch);
    touch.solids.reserve(rings.size());
    touch.seen.reserve(rings.size());
    for (const PrismRings& one : rings) touch.solids.emplace_back(one, touch.pose);
    for (const Solid& solid : touch.solids) touch.seen.emplace_back(solid, touch.moving ? how.moving : how.held);
    if (!touch.driven_sees) return touch;
    touch.from_driven.reserve(rings.size());
    for (const Solid& solid : touch.solids)
        touch.from_driven.emplace_back(solid, touch.moving ? how.moving_from_driven : how.held_from_driven);
    return touch;
}

// Seen from what stands still the moving side goes as the held side sees it, on a leaf brake.
const std::vector<SeenSolid>& TouchTable::pairedSeen(std::uint32_t moving) {
    laidOut(moving);
    GroupTouch& touch = *records_[moving];
    if (!machine_.isPress()) return touch.seen;
    if (touch.paired.empty()) {
        for (const Solid& solid : touch.solids) touch.paired.emplace_back(solid, motions(bend_of_record_[moving]).pair);
    }
    return touch.paired;
}

bool TouchTable::moves(const GroupTouch& touch) const { return touch.moving || machine_.isPress(); }

Rigid TouchTable::poseIn(std::uint32_t record, Phase phase) const {
    const GroupTouch& touch = *records_[record];
    if (!moves(touch) || phase == Phase::kBefore) return touch.pose;
    const BendId bend = bend_of_record_[record];
    return sideSwungBy(machine_, motions(bend), touch.moving, bodies_.part().bend(bend).angle.rad()) * touch.pose;
}

const std::vector<Solid>& TouchTable::lying(std::uint32_t record, Phase phase) {
    GroupTouch& touch = *records_[record];
    if (!moves(touch) || phase == Phase::kBefore) return laidOut(record).solids;
    if (!touch.after.empty()) return touch.after;
    const Rigid pose = poseIn(record, phase);
    for (const PrismRings& one : ringsOf(touch)) touch.after.emplace_back(one, pose);
    return touch.after;
}

const PlainExit& TouchTable::plainExit(std::uint32_t record, Phase phase) {
    const GroupTouch& touch = *records_[record];
    auto& slot = records_[record]->exits[moves(touch) && phase == Phase::kAfter ? 1 : 0];
    if (slot) return *slot;
    slot =
        std::make_unique<PlainExit>(touch.twin == record ? computeExit(record, phase) : plainExit(touch.twin, phase));
    for (IntervalSet& bars : slot->bars) bars = bars.shifted(touch.from_twin_um);
    slot->bodies = slot->bodies.shifted(touch.from_twin_um);
    return *slot;
}

PlainExit TouchTable::computeExit(std::uint32_t record, Phase phase) {
    PlainExit exit;
    exit.bars.resize(machine_.families().size());
    cornersOf(ringsOf(*records_[record]), poseIn(record, phase), scratch_);
    const Convex2 hull = hullOf(scratch_);
    if (plain_exits_.clearOfBars(hull) && plain_exits_.clearOfBodies(hull)) return exit;
    const std::vector<Solid>& solids = lying(record, phase);
    for (std::size_t family = 0; family < exit.bars.size(); ++family)
        exit.bars[family] = plain_exits_.bars(family, solids);
    exit.bodies = plain_exits_.bodies(solids);
    return exit;
}

}  // namespace tinwright
