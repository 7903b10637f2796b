// SPDX-License-Identifier: GPL-3.0-or-later
#include "machine/machine.h"

#include <algorithm>
#include <utility>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/geometry/polygons.h>

#include "machine/machine_sections.h"

namespace tinwright {

namespace {

// Bar and leaf bear on the same sheet and may be close: the stroke is halved until it is known to some hundredths.
constexpr int kLeafDepth = 14;

}  // namespace

IntervalSet withRelief(const IntervalSet& low, const Relief& relief, const IntervalSet& high) {
    IntervalSet result;
    for (const Interval& item : low.items()) {
        const Interval left{item.lo + relief.right_um, item.hi - relief.left_um};
        if (!left.empty()) {
            result.add(left);
            continue;
        }
        const bool kept_apart = std::any_of(high.items().begin(), high.items().end(), [&](const Interval& other) {
            return other.lo <= left.lo && other.hi >= left.hi;
        });
        const Micron middle = (left.lo + left.hi) / 2;
        if (!kept_apart) result.add(Interval{middle, middle + 1});
    }
    return result;
}

IntervalSet insideRelief(const IntervalSet& low, const Relief& relief) {
    IntervalSet result;
    for (const Interval& item : low.items()) result.add(Interval{item.lo + relief.right_um, item.hi - relief.left_um});
    return result;
}

Machine::Machine(const BrakeInSetup& brake, double thickness_mm)
    : brake_(brake),
      thickness_mm_(thickness_mm),
      nose_centre_(brake->isPress() ? 0.0 : brake.inside_radius_mm(), thickness_mm + brake.inside_radius_mm()) {
    if (brake->isPress()) {
        addPressBrake();
    } else {
        addLeafBrake();
    }
}

void Machine::addLeafBrake() {
    const LeafBrake& leaf = brake_->leaf();
    exits_ = {leaf.clamp == ClampKind::kLooseBars, leaf.opening_mm, leaf.pieces_out_in_place};
    hinge_ = Vec2(-brake_.setback_mm(), leaf.hinge_height_mm);
    addBody("bed", BodyKind::kBed, {shifted(leaf.bed, Vec2(hinge_.x(), 0))});
    if (leaf.beam) {
        const double under = leaf.beam->height_mm + thickness_mm_;
        const double front = leaf.beam->front_y_mm;
        beam_ = static_cast<int>(
            addBody("beam", BodyKind::kBeam, {rectangle(front, front + kBeyond_mm, under, under + kBeyond_mm)}));
    }
    first_leaf_ = bodies_.size();
    for (const LeafFace& face : leaf.leaf_faces) {
        under_.push_back(
            {bed(), addBody("leaf", BodyKind::kLeaf,
                            {rectangle(hinge_.x() - face.reach_mm, hinge_.x(), -face.thickness_mm, 0)}, true)});
        over_.emplace_back();
        if (beam_ >= 0) over_.back().push_back(static_cast<std::size_t>(beam_));
    }
    family_of_.resize(brake_->toolCount());
    for (const ToolId tool : brake_.tools()) addFamily(tool);
}

std::size_t Machine::addBody(std::string name, BodyKind kind, const std::vector<Polygon>& sections, bool driven) {
    Body body{std::move(name), kind, driven, {}, {}, {}};
    const Vec2& centre = kind == BodyKind::kLeaf ? hinge_ : nose_centre_;
    for (const Polygon& section : sections) {
        for (Convex2& piece : profilePieces(section, kContactTolerance_mm)) {
            body.pieces.emplace_back(piece, centre);
            body.section.push_back(std::move(piece));
        }
        for (const Convex2& piece : profilePieces(section, kStrictInset_mm)) body.strict.emplace_back(piece, centre);
    }
    bodies_.push_back(std::move(body));
    return bodies_.size() - 1;
}

std::string Machine::faceName(std::size_t face) const {
    return isPress() ? std::string() : brake_->leaf().leaf_faces[face].name;
}

std::vector<std::size_t> Machine::longBodies(std::size_t face) const {
    std::vector<std::size_t> bodies = under_[face];
    bodies.insert(bodies.end(), over_[face].begin(), over_[face].end());
    return bodies;
}

ToolId Machine::barOf(std::size_t family) const {
    const std::vector<ToolId>& tools = brake_.tools();
    return *std::find_if(tools.begin(), tools.end(), [&](ToolId tool) { return familyOf(tool) == family; });
}

bool Machine::leafClears(std::size_t leaf, std::size_t body, const Motion& body_from_leaf, double margin_mm) const {
    for (const Convex2& piece : bodies_[body].section) {
        const SeenSection seen(piece, body_from_leaf);
        for (const ToolPiece& face : bodies_[leaf].pieces) {
            if (!staysClear(seen, body_from_leaf, face.section, face.ring, margin_mm, kLeafDepth)) return false;
        }
    }
    return true;
}

void Machine::addFamily(ToolId tool) {
    for (const ToolId other : brake_.tools()) {
        if (other == tool) break;
        if (!sameSection(*brake_, other, tool)) continue;
        family_of_[tool.index()] = family_of_[other.index()];
        return;
    }
    BarFamily family = familyOfTool(brake_->tool(tool), brake_->rowOf(tool));
    if (const Bar* bar = brake_->bar(tool)) addBarBodies(*bar, family);
    if (const Punch* punch = brake_->punch(tool)) addPunchBodies(*punch, family);
    if (const Die* die = brake_->die(tool)) addDieBodies(*die, family);
    family_of_[tool.index()] = families_.size();
    families_.push_back(std::move(family));
}

BarFamily Machine::familyOfTool(const Tool& tool, ToolRow row) const {
    BarFamily family;
    family.row = row;
    family.height_mm = tool.height_mm;
    family.section = row == ToolRow::kLower ? tool.profile : shifted(tool.profile, Vec2(0, thickness_mm_));
    return family;
}

void Machine::addBarBodies(const Bar& bar, BarFamily& family) {
    family.depth_mm = bar.clamp_depth_mm;
    if (bar.end_relief_mm <= 0 || bar.end_relief_height_mm <= 0) {
        family.high = addBody("bar", BodyKind::kBarHigh, {family.section});
        return;
    }
    const double cut = thickness_mm_ + bar.end_relief_height_mm;
    const Micron relief_um = micronFloor(bar.end_relief_mm);
    family.relief = {relief_um, relief_um};
    family.low = static_cast<int>(addBody("bar", BodyKind::kBarLow, between(family.section, -kBeyond_mm, cut)));
    family.high = addBody("bar", BodyKind::kBarHigh, between(family.section, cut, kBeyond_mm));
}

}  // namespace tinwright
