// SPDX-License-Identifier: GPL-3.0-or-later
// What the records of TouchTable hold from the start: groups as they lie, and how they are seen.
#include <algorithm>
#include <limits>

#include "touch_table.h"

namespace tinwright {

namespace {

constexpr double kFlat_mm = 1e-6;

bool liesFlat(const std::vector<Solid>& solids, double thickness_mm) {
    return std::all_of(solids.begin(), solids.end(), [&](const Solid& solid) {
        return std::all_of(solid.corners().begin(), solid.corners().end(), [&](const Vec3& corner) {
            return corner.z() > -kFlat_mm && corner.z() < thickness_mm + kFlat_mm;
        });
    });
}

// Slices of arcs stand out by their sagitta.
bool risesFromSheet(const std::vector<Solid>& solids) {
    return std::all_of(solids.begin(), solids.end(), [](const Solid& solid) {
        return std::all_of(solid.corners().begin(), solid.corners().end(), [](const Vec3& corner) { return corner.z() > -kArcSagitta_mm - kFlat_mm; });
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
    if (is_new) entry->second = makeRecord(bend, hold, group, formed);
    return entry->second;
}

std::uint32_t TouchTable::makeRecord(BendId bend, int hold, std::size_t group, BendMask formed) {
    auto touch = std::make_unique<GroupTouch>();
    touch->group = group;
    placeSolids(*touch, bend, hold, formed);
    prepareViews(*touch, motions(bend));
    touch->bodies.resize(machine_.bodies().size());
    records_.push_back(std::move(touch));
    bend_of_record_.push_back(bend);
    return static_cast<std::uint32_t>(records_.size() - 1);
}

void TouchTable::placeSolids(GroupTouch& touch, BendId bend, int hold, BendMask formed) const {
    const Group& group = bodies_.groups()[touch.group];
    const Bend& line = bodies_.part().bend(bend);
    const PanelId held = heldPanel(line, hold);
    touch.moving = contains(bodies_.path(held, group.frame), bend);
    const PanelId anchor = touch.moving ? movingPanel(line, hold) : held;
    const Rigid frame = foldFromBlank(line, hold, bodies_.part().thickness_mm, bodies_.nose_radius_mm());
    const Rigid pose = frame * bodies_.pose(anchor, group.frame, formed);
    const bool is_arc = group.is_strip && contains(formed, group.bend);
    touch.is_arc = is_arc;
    for (const PrismRings& rings : is_arc ? group.formed : group.flat) touch.solids.emplace_back(rings, pose);
    touch.lies_flat = liesFlat(touch.solids, bodies_.part().thickness_mm);
    touch.rises = risesFromSheet(touch.solids);
    if (!touch.moving) return;
    const Rigid swung = swungBy(motions(bend), line.angle.rad());
    for (const PrismRings& rings : is_arc ? group.formed : group.flat) touch.after.emplace_back(rings, swung * pose);
}

void TouchTable::prepareViews(GroupTouch& touch, const BendMotions& motions) const {
    touch.x_lo_mm = std::numeric_limits<double>::infinity();
    touch.x_hi_mm = -touch.x_lo_mm;
    touch.ring = {touch.x_lo_mm, 0};
    touch.seen.reserve(touch.solids.size());
    std::vector<Vec2> sections;
    for (const Solid& solid : touch.solids) {
        touch.x_lo_mm = std::min(touch.x_lo_mm, solid.x_lo_mm());
        touch.x_hi_mm = std::max(touch.x_hi_mm, solid.x_hi_mm());
        const std::vector<Vec2>& section = solid.section().points();
        const RadiusRange ring = radiusRange(section, motions.swing.centre());
        touch.ring = {std::min(touch.ring.least_mm, ring.least_mm), std::max(touch.ring.most_mm, ring.most_mm)};
        touch.seen.emplace_back(solid, touch.moving ? motions.moving : motions.still);
        sections.insert(sections.end(), section.begin(), section.end());
    }
    if (touch.solids.size() > 1) touch.hull = Convex2(sections);
    prepareLeafViews(touch, motions);
}

// Views from the leaf are left out where they tell nothing: of what lies on it, and of what it never comes near.
void TouchTable::prepareLeafViews(GroupTouch& touch, const BendMotions& motions) const {
    if (touch.moving && touch.rises) return;
    if (!touch.moving) {
        double leaf = 0;
        for (std::size_t face = 0; face < machine_.brake().leaf_faces.size(); ++face) {
            for (const ToolPiece& piece : machine_.bodies()[machine_.leaf(face)].strict) leaf = std::max(leaf, piece.ring.most_mm);
        }
        const double reach = leaf + (machine_.hinge() - motions.swing.centre()).norm() + kClearanceCap_mm + limits_->clearance_mm;
        if (touch.ring.least_mm > reach) return;
    }
    touch.from_leaf.reserve(touch.solids.size());
    for (const Solid& solid : touch.solids) touch.from_leaf.emplace_back(solid, touch.moving ? motions.moving_from_leaf : motions.held_from_leaf);
}

}  // namespace tinwright
