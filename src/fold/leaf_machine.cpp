// SPDX-License-Identifier: GPL-3.0-or-later
#include "leaf_machine.h"

#include <algorithm>
#include <utility>

namespace tinwright {

namespace {

// Bar and leaf bear on the same sheet and may be close: the stroke is halved until it is known to some hundredths.
constexpr int kLeafDepth = 14;
constexpr double kBeyond_mm = 2000;  // stands for "without end" over and behind a machine

Polygon rectangle(double y_lo, double y_hi, double z_lo, double z_hi) {
    return {Vec2(y_lo, z_lo), Vec2(y_hi, z_lo), Vec2(y_hi, z_hi), Vec2(y_lo, z_hi)};
}

Polygon shifted(Polygon polygon, const Vec2& by) {
    for (Vec2& point : polygon) point += by;
    return polygon;
}

// The profile between two heights; a bar's section cut by a level line may fall into several pieces.
std::vector<Polygon> between(const Polygon& profile, double z_lo, double z_hi) {
    std::vector<Polygon> pieces;
    for (Region& region : intersection(Region{profile, {}}, rectangle(-kBeyond_mm, kBeyond_mm, z_lo, z_hi))) {
        pieces.push_back(std::move(region.outline));
    }
    return pieces;
}

}  // namespace

IntervalSet withRelief(const IntervalSet& low, Micron relief_um, const IntervalSet& high) {
    IntervalSet result;
    for (const Interval& item : low.items()) {
        const Interval left{item.lo + relief_um, item.hi - relief_um};
        if (!left.empty()) {
            result.add(left);
            continue;
        }
        const bool kept_apart = std::any_of(high.items().begin(), high.items().end(), [&](const Interval& other) {
            return other.lo <= left.lo && other.hi >= left.hi;
        });
        const Micron middle = (item.lo + item.hi) / 2;
        if (!kept_apart) result.add(Interval{middle, middle + 1});
    }
    return result;
}

IntervalSet insideRelief(const IntervalSet& low, Micron relief_um) {
    IntervalSet result;
    for (const Interval& item : low.items()) result.add(Interval{item.lo + relief_um, item.hi - relief_um});
    return result;
}

LeafMachine::LeafMachine(const Brake& brake, double thickness_mm)
    : brake_(&brake), thickness_mm_(thickness_mm), nose_centre_(brake.nose_radius_mm, thickness_mm + brake.nose_radius_mm),
      hinge_(-brake.setbackFor_mm(thickness_mm), brake.hinge_height_mm) {
    addBody("bed", BodyKind::kBed, {shifted(brake.bed, Vec2(hinge_.x(), 0))});
    if (brake.has_beam) {
        const double under = brake.beam.height_mm + thickness_mm;
        const double front = brake.beam.front_y_mm;
        beam_ = static_cast<int>(addBody("beam", BodyKind::kBeam, {rectangle(front, front + kBeyond_mm, under, under + kBeyond_mm)}));
    }
    first_leaf_ = bodies_.size();
    for (const LeafFace& face : brake.leaf_faces) {
        addBody("leaf", BodyKind::kLeaf, {rectangle(hinge_.x() - face.reach_mm, hinge_.x(), -face.thickness_mm, 0)});
    }
    for (const Bar& bar : brake.bars) addFamily(bar);
}

std::size_t LeafMachine::addBody(std::string name, BodyKind kind, const std::vector<Polygon>& sections) {
    Body body{std::move(name), kind, {}, {}, {}};
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

BarId LeafMachine::barOf(std::size_t family) const {
    return idAt<BarId>(static_cast<std::size_t>(std::find(family_of_.begin(), family_of_.end(), family) - family_of_.begin()));
}

bool LeafMachine::leafClears(std::size_t leaf, std::size_t body, const Motion& body_from_leaf, double margin_mm) const {
    for (const Convex2& piece : bodies_[body].section) {
        const SeenSection seen(piece, body_from_leaf);
        for (const ToolPiece& face : bodies_[leaf].pieces) {
            if (!staysClear(seen, body_from_leaf, face.section, face.ring, margin_mm, kLeafDepth)) return false;
        }
    }
    return true;
}

void LeafMachine::addFamily(const Bar& bar) {
    for (std::size_t i = 0; i < family_of_.size(); ++i) {
        if (sameSection(brake_->bars[i], bar)) {
            family_of_.push_back(family_of_[i]);
            return;
        }
    }
    BarFamily family;
    family.depth_mm = bar.clamp_depth_mm;
    family.height_mm = bar.height_mm;
    family.section = shifted(bar.profile, Vec2(0, thickness_mm_));
    if (bar.end_relief_mm > 0 && bar.end_relief_height_mm > 0) {
        const double cut = thickness_mm_ + bar.end_relief_height_mm;
        family.relief_um = micronFloor(bar.end_relief_mm);
        family.low = static_cast<int>(addBody("bar", BodyKind::kBarLow, between(family.section, -kBeyond_mm, cut)));
        family.high = addBody("bar", BodyKind::kBarHigh, between(family.section, cut, kBeyond_mm));
    } else {
        family.high = addBody("bar", BodyKind::kBarHigh, {family.section});
    }
    family_of_.push_back(families_.size());
    families_.push_back(std::move(family));
}

}  // namespace tinwright
