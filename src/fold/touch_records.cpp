// SPDX-License-Identifier: GPL-3.0-or-later
// The records of TouchTable: groups as they lie before and after a stroke, and their plain ways out.
#include <algorithm>
#include <limits>

#include "touch_table.h"

namespace tinwright {

namespace {

constexpr double kFlat_mm = 1e-6;

template <class Take>
void eachCorner(const std::vector<PrismRings>& solids, const Rigid& pose, Take take) {
    for (const PrismRings& rings : solids) {
        for (const Vec3& corner : rings.bottom) take(Vec3(pose * corner));
        for (const Vec3& corner : rings.top) take(Vec3(pose * corner));
    }
}

Convex2 hullOf(const std::vector<PrismRings>& solids, const Rigid& pose) {
    std::vector<Vec2> corners;
    eachCorner(solids, pose, [&](const Vec3& corner) { corners.emplace_back(corner.y(), corner.z()); });
    return Convex2(corners);
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
    boundGroup(*touch, motions(bend));
    touch->bodies.resize(machine_.bodies().size());
    records_.push_back(std::move(touch));
    bend_of_record_.push_back(bend);
    return static_cast<std::uint32_t>(records_.size() - 1);
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

void TouchTable::boundGroup(GroupTouch& touch, const BendMotions& motions) const {
    const double thickness_mm = bodies_.part().thickness_mm;
    touch.x_lo_mm = std::numeric_limits<double>::infinity();
    touch.x_hi_mm = -touch.x_lo_mm;
    touch.lies_flat = true;
    touch.rises = true;
    double front_mm = touch.x_lo_mm;
    double back_mm = -front_mm;
    eachCorner(ringsOf(touch), touch.pose, [&](const Vec3& corner) {
        touch.x_lo_mm = std::min(touch.x_lo_mm, corner.x());
        touch.x_hi_mm = std::max(touch.x_hi_mm, corner.x());
        front_mm = std::min(front_mm, corner.y());
        back_mm = std::max(back_mm, corner.y());
        touch.lies_flat = touch.lies_flat && corner.z() > -kFlat_mm && corner.z() < thickness_mm + kFlat_mm;
        touch.rises = touch.rises && corner.z() > -kArcSagitta_mm - kFlat_mm;  // slices of arcs stand out by their sagitta
    });
    touch.hull = hullOf(ringsOf(touch), touch.pose);
    touch.ring = radiusRange(touch.hull.points(), motions.swing.centre());
    touch.reach_mm = touch.moving ? motions.pair.shiftBound_mm() : 0.0;
    touch.driven_sees = drivenSees(touch, motions, front_mm, back_mm);
}

// Dies bear on either side of the sheet: what is over its lower face, and does not reach across the strip, is clear of them (NOTES.md).
bool TouchTable::drivenSees(const GroupTouch& touch, const BendMotions& motions, double front_mm, double back_mm) const {
    if (!machine_.isPress()) return touch.moving ? !touch.rises : leafComesNear(touch, motions);
    const bool ahead = touch.moving ? back_mm < motions.strip_front_mm + kFlat_mm : front_mm > motions.strip_back_mm - kFlat_mm;
    return !(touch.rises && ahead);
}

bool TouchTable::leafComesNear(const GroupTouch& touch, const BendMotions& motions) const {
    const double reach = leaf_reach_mm_ + (machine_.hinge() - motions.swing.centre()).norm() + kClearanceCap_mm + limits_->clearance_mm;
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
    for (const Solid& solid : touch.solids) touch.from_driven.emplace_back(solid, touch.moving ? how.moving_from_driven : how.held_from_driven);
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
    auto& slot = records_[record]->exits[moves(*records_[record]) && phase == Phase::kAfter ? 1 : 0];
    if (!slot) slot = std::make_unique<PlainExit>(computeExit(record, phase));
    return *slot;
}

PlainExit TouchTable::computeExit(std::uint32_t record, Phase phase) {
    PlainExit exit;
    exit.bars.resize(machine_.families().size());
    const Convex2 hull = hullOf(ringsOf(*records_[record]), poseIn(record, phase));
    if (plain_exits_.clearOfBars(hull) && plain_exits_.clearOfBodies(hull)) return exit;
    const std::vector<Solid>& solids = lying(record, phase);
    for (std::size_t family = 0; family < exit.bars.size(); ++family) exit.bars[family] = plain_exits_.bars(family, solids);
    exit.bodies = plain_exits_.bodies(solids);
    return exit;
}

}  // namespace tinwright
