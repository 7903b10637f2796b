// SPDX-License-Identifier: GPL-3.0-or-later
#include "machine/leaf_machine.h"

#include <algorithm>
#include <limits>
#include <numbers>

#include <tinwright/geometry/polygons.h>

#include "machine/machine_sections.h"

namespace tinwright {

LeafMachine::LeafMachine(const BrakeInSetup& brake, double thickness_mm, const std::vector<double>& packings_mm)
    : Machine(brake, thickness_mm, Vec2(brake.inside_radius_mm(), thickness_mm + brake.inside_radius_mm())),
      packed_{brake} {
    const LeafBrake& leaf = brake_->leaf();
    const bool loose = leaf.clamp == ClampKind::kLooseBars;
    exits_ = {loose ? Exits::Order::kPiecesFirst : Exits::Order::kRaisedPieces, leaf.opening_mm,
              leaf.pieces_out_in_place, !leaf.beam, true};
    knows_tolerances_ = true;
    for (const double packing_mm : packings_mm) {
        for (const bool on_leaf : {false, true}) {
            packings_.push_back({packing_mm, on_leaf});
            packed_.push_back(brake.packed(packing_mm, on_leaf, thickness_mm));
        }
    }
    driven_centres_.clear();
    for (const BrakeInSetup& packed : packed_)
        driven_centres_.emplace_back(-packed.setback_mm(), packed.hinge_height_mm());
    if (leaf.beam) {
        const double under = leaf.beam->height_mm + thickness_mm_;
        const double front = leaf.beam->front_y_mm;
        beam_ = static_cast<int>(addBody(BodyRef::Kind::kBeam, BodyKind::kBeam,
                                         {rectangle(front, front + kBeyond_mm, under, under + kBeyond_mm)}));
    }
    for (std::size_t packing = 0; packing < packed_.size(); ++packing) addFaces(packing);
    addFamilies([&](ToolId tool, ToolFamily& family) { addBar(*brake_->bar(tool), family); });
}

// Bed and leaf lie lower by the packing.
void LeafMachine::addFaces(std::size_t packing) {
    const LeafBrake& leaf = brake_->leaf();
    const double front_mm = driven_centres_[packing].x();
    const double top_mm = -packings_[packing].height_mm;
    const std::size_t bed =
        addBody(BodyRef::Kind::kBed, BodyKind::kBed, {shifted(leaf.bed, Vec2(front_mm, top_mm))}, false, packing);
    for (const LeafFace& face : leaf.leaf_faces) {
        const Polygon section = rectangle(front_mm - face.reach_mm, front_mm, top_mm - face.thickness_mm, top_mm);
        under_.push_back({bed, addBody(BodyRef::Kind::kLeaf, BodyKind::kLeaf, {section}, true, packing)});
        over_.emplace_back();
        if (beam_ >= 0) over_.back().push_back(static_cast<std::size_t>(beam_));
        face_names_.push_back(face.name);
        for (const ToolPiece& piece : bodies_.back().strict)
            leaf_reach_mm_ = std::max(leaf_reach_mm_, piece.ring.most_mm);
    }
}

void LeafMachine::addBar(const Bar& bar, ToolFamily& family) {
    family.depth_mm = bar.clamp_depth_mm;
    if (bar.end_relief_mm <= 0 || bar.end_relief_height_mm <= 0) {
        family.high = addBody(BodyRef::Kind::kBar, BodyKind::kBarHigh, {family.section});
        return;
    }
    const double cut = thickness_mm_ + bar.end_relief_height_mm;
    const Micron relief_um = micronFloor(bar.end_relief_mm);
    family.relief = {relief_um, relief_um};
    family.low =
        static_cast<int>(addBody(BodyRef::Kind::kBar, BodyKind::kBarLow, between(family.section, -kBeyond_mm, cut)));
    family.high = addBody(BodyRef::Kind::kBar, BodyKind::kBarHigh, between(family.section, cut, kBeyond_mm));
}

DrivenMotions LeafMachine::fromDriven(const Swing& swing, const Swing&, std::size_t packing) const {
    const Vec2& hinge = driven_centres_[packing];
    const LeafHinge leaf{hinge, packed_[packing].hingeOverLeaf_mm()};
    return {Motion::heldFromLeaf(hinge, swing.set_rad()), Motion::movingFromLeaf(swing, leaf),
            Motion::standingFromLeaf(swing, leaf)};
}

bool LeafMachine::comesDownLate(double set_rad) const { return set_rad > 0.5 * std::numbers::pi; }

bool LeafMachine::swings(double set_rad) const {
    constexpr double kRounding_rad = 1e-9;
    return set_rad <= mostAngle_rad() + kRounding_rad;
}

bool LeafMachine::reaches(double set_rad) const {
    return swings(set_rad) && !leafJams(brake_, {thickness_mm_, 0, Angle::radians(set_rad)});
}

LeafBend LeafMachine::bendOf(const BendMotions& motions) const {
    return {thickness_mm_, motions.swing.allowance_mm(), Angle::radians(motions.swing.set_rad())};
}

bool LeafMachine::standsOff(const BendMotions& motions, std::size_t packing) const {
    return leafPresses_mm(packed_[packing], bendOf(motions)) < 0;
}

Angle LeafMachine::lead(const BendMotions& motions, std::size_t face, double flat_mm) const {
    return leafLead(packed_[packingOf(face)], brake_->leaf().leaf_faces[plainFaceOf(face)], bendOf(motions), flat_mm);
}

// Without packing the land and the pressing are asked of every stroke before (sideDepthToSwing_mm, reaches).
bool LeafMachine::swingsWith(std::size_t face, const BendMotions& motions, double flat_mm, const Limits& limits) const {
    const BrakeInSetup& brake = packed_[packingOf(face)];
    const LeafBend bend = bendOf(motions);
    const bool bears =
        packingOf(face) == 0 || (!leafJams(brake, bend) && leafBegins_mm(brake, bend) + limits.leaf_land_mm <= flat_mm);
    return bears && swings(motions.set_rad + lead(motions, face, flat_mm).rad());
}

double LeafMachine::packedPresses_mm(std::size_t packing, const BendMotions& motions) const {
    return leafPresses_mm(packed_[packing], bendOf(motions));
}

PackedLie LeafMachine::packedLie(std::size_t packing, const BendMotions& motions, const Limits& limits) const {
    const double front_mm = driven_centres_[packing].x();
    const double back_mm = std::max(limits.clamped_land_mm, brake_.inside_radius_mm());
    if (!packings_[packing].on_leaf) return {{front_mm, back_mm}, front_mm, front_mm};
    const PackingOnLeaf leaf = packingOnLeaf(packed_[packing], bendOf(motions), limits.leaf_land_mm);
    const double leaf_from_mm = motions.strip_front_mm - leaf.begins_mm;
    return {{leaf_from_mm - leaf.least_mm, back_mm}, front_mm + packings_[packing].height_mm, leaf_from_mm};
}

AngleLimit LeafMachine::angleLimit(double set_rad) const {
    return swings(set_rad) ? AngleLimit{ReasonCode::kLeafJams, BodyRef::Kind::kLeaf} : Machine::angleLimit(set_rad);
}

double LeafMachine::overDriven_mm(const DrivenView&, const BendMotions&, const std::vector<Vec3>&) const {
    return std::numeric_limits<double>::infinity();  // the leaf bears on what it swings, and is seen by all else
}

bool LeafMachine::drivenSees(const DrivenView& group, const BendMotions& motions, double, double clearance_mm) const {
    if (group.moving) return !group.rises;
    double furthest_mm = 0;
    for (const Vec2& hinge : driven_centres_)
        furthest_mm = std::max(furthest_mm, (hinge - motions.swing.centre()).norm());
    const double reach_mm = leaf_reach_mm_ + furthest_mm + kClearanceCap_mm + clearance_mm;
    return group.ring.least_mm <= reach_mm;
}

bool LeafMachine::drivenBears(const DrivenView& group, bool) const { return group.rises && group.moving; }

// The nose keeps out of the bent strip, and the leaf, swung with the sheet on it, out of the bar.
bool LeafMachine::fits(std::size_t family, std::size_t face, const BendMotions& motions,
                       const StripSlices& strip) const {
    const ToolFamily& bars = families_[family];
    std::vector<std::size_t> parts{bars.high};
    if (bars.low >= 0) parts.push_back(static_cast<std::size_t>(bars.low));
    for (const std::size_t part : parts) {
        for (const Solid& slice : strip.bent()) {
            for (const Convex2& piece : bodies_[part].section) {
                if (!apart(slice.section(), piece)) return false;
            }
        }
        if (!drivenClears(driven(face), part, motions.from_driven[packingOf(face)].standing)) return false;
    }
    return true;
}

FlatDepth LeafMachine::flatDepth(const BendMotions&, double clamped_land_mm) const {
    constexpr double kSome_mm = 0.01;
    return {std::max(kSome_mm, clamped_land_mm - brake_.inside_radius_mm()), {}};
}

std::optional<double> LeafMachine::sideDepthToSwing_mm(const BendMotions& motions, const Limits& limits) const {
    const double depth_mm = leafBegins_mm(brake_, bendOf(motions)) + limits.leaf_land_mm;
    return depth_mm > 0 ? std::optional(depth_mm) : std::nullopt;
}

}  // namespace tinwright
