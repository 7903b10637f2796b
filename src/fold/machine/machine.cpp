// SPDX-License-Identifier: GPL-3.0-or-later
#include "machine/machine.h"

#include <algorithm>
#include <utility>

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

Machine::Machine(const Brake& brake, double thickness_mm)
    : brake_(&brake),
      thickness_mm_(thickness_mm),
      nose_centre_(brake.isPress() ? 0.0 : brake.nose_radius_mm, thickness_mm + brake.nose_radius_mm) {
    if (brake.isPress()) {
        addPressBrake();
    } else {
        addLeafBrake();
    }
}

void Machine::addLeafBrake() {
    const Brake& brake = *brake_;
    hinge_ = Vec2(-brake.setbackFor_mm(thickness_mm_), brake.hinge_height_mm);
    addBody("bed", BodyKind::kBed, {shiftedBy(brake.bed, Vec2(hinge_.x(), 0))});
    if (brake.has_beam) {
        const double under = brake.beam.height_mm + thickness_mm_;
        const double front = brake.beam.front_y_mm;
        beam_ = static_cast<int>(
            addBody("beam", BodyKind::kBeam, {rectangle(front, front + kBeyond_mm, under, under + kBeyond_mm)}));
    }
    first_leaf_ = bodies_.size();
    for (const LeafFace& face : brake.leaf_faces) {
        under_.push_back(
            {bed(), addBody("leaf", BodyKind::kLeaf,
                            {rectangle(hinge_.x() - face.reach_mm, hinge_.x(), -face.thickness_mm, 0)}, true)});
        over_.emplace_back();
        if (beam_ >= 0) over_.back().push_back(static_cast<std::size_t>(beam_));
    }
    for (const Bar& bar : brake.bars) addFamily(bar);
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
    return isPress() ? std::string() : brake_->leaf_faces[face].name;
}

std::vector<std::size_t> Machine::longBodies(std::size_t face) const {
    std::vector<std::size_t> bodies = under_[face];
    bodies.insert(bodies.end(), over_[face].begin(), over_[face].end());
    return bodies;
}

BarId Machine::barOf(std::size_t family) const {
    std::size_t bar = 0;
    while (family_of_[bar] != family || brake_->bars[bar].count == 0) ++bar;
    return idAt<BarId>(bar);
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

void Machine::addFamily(const Bar& bar) {
    for (std::size_t i = 0; i < family_of_.size(); ++i) {
        if (brake_->bars[i].count > 0 && sameSection(brake_->bars[i], bar)) {
            family_of_.push_back(family_of_[i]);
            return;
        }
    }
    BarFamily family;
    family.row = bar.row;
    family.depth_mm = bar.clamp_depth_mm;
    family.height_mm = bar.height_mm;
    family.section = bar.row == ToolRow::kDie ? bar.profile : shiftedBy(bar.profile, Vec2(0, thickness_mm_));
    if (isPress()) {
        addPunchBodies(bar, family);
    } else {
        addBarBodies(bar, family);
    }
    family_of_.push_back(families_.size());
    families_.push_back(std::move(family));
}

void Machine::addBarBodies(const Bar& bar, BarFamily& family) {
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
