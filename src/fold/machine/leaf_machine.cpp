// SPDX-License-Identifier: GPL-3.0-or-later
#include "machine/leaf_machine.h"

#include <algorithm>
#include <limits>
#include <numbers>

#include <tinwright/geometry/polygons.h>

#include "machine/machine_sections.h"

namespace tinwright {

LeafMachine::LeafMachine(const BrakeInSetup& brake, double thickness_mm)
    : Machine(brake, thickness_mm, Vec2(brake.inside_radius_mm(), thickness_mm + brake.inside_radius_mm())) {
    const LeafBrake& leaf = brake_->leaf();
    const bool loose = leaf.clamp == ClampKind::kLooseBars;
    exits_ = {loose ? Exits::Order::kPiecesFirst : Exits::Order::kRaisedPieces, leaf.opening_mm,
              leaf.pieces_out_in_place, !leaf.beam, true};
    knows_tolerances_ = true;
    driven_centre_ = Vec2(-brake_.setback_mm(), leaf.hinge_height_mm);
    const std::size_t bed =
        addBody(BodyRef::Kind::kBed, BodyKind::kBed, {shifted(leaf.bed, Vec2(driven_centre_.x(), 0))});
    if (leaf.beam) {
        const double under = leaf.beam->height_mm + thickness_mm_;
        const double front = leaf.beam->front_y_mm;
        beam_ = static_cast<int>(addBody(BodyRef::Kind::kBeam, BodyKind::kBeam,
                                         {rectangle(front, front + kBeyond_mm, under, under + kBeyond_mm)}));
    }
    for (const LeafFace& face : leaf.leaf_faces) {
        under_.push_back(
            {bed, addBody(BodyRef::Kind::kLeaf, BodyKind::kLeaf,
                          {rectangle(driven_centre_.x() - face.reach_mm, driven_centre_.x(), -face.thickness_mm, 0)},
                          true)});
        over_.emplace_back();
        if (beam_ >= 0) over_.back().push_back(static_cast<std::size_t>(beam_));
        face_names_.push_back(face.name);
        for (const ToolPiece& piece : bodies_.back().strict)
            leaf_reach_mm_ = std::max(leaf_reach_mm_, piece.ring.most_mm);
    }
    addFamilies([&](ToolId tool, ToolFamily& family) { addBar(*brake_->bar(tool), family); });
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

Motion LeafMachine::heldFromDriven(const Swing& swing, const Swing&) const {
    return Motion::heldFromLeaf(driven_centre_, swing.set_rad());
}

Motion LeafMachine::movingFromDriven(const Swing& swing, const Swing&) const {
    return Motion::movingFromLeaf(swing, driven_centre_);
}

Motion LeafMachine::standingFromDriven(const Swing& swing, const Swing&) const {
    return Motion::standingFromLeaf(swing, driven_centre_);
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

bool LeafMachine::standsOff(const BendMotions& motions) const { return leafPresses_mm(brake_, bendOf(motions)) < 0; }

Angle LeafMachine::lead(const BendMotions& motions, std::size_t face, double flat_mm) const {
    return leafLead(brake_, brake_->leaf().leaf_faces[face], bendOf(motions), flat_mm);
}

AngleLimit LeafMachine::angleLimit(double set_rad) const {
    return swings(set_rad) ? AngleLimit{ReasonCode::kLeafJams, BodyRef::Kind::kLeaf} : Machine::angleLimit(set_rad);
}

double LeafMachine::overDriven_mm(const DrivenView&, const BendMotions&, const std::vector<Vec3>&) const {
    return std::numeric_limits<double>::infinity();  // the leaf bears on what it swings, and is seen by all else
}

bool LeafMachine::drivenSees(const DrivenView& group, const BendMotions& motions, double, double clearance_mm) const {
    if (group.moving) return !group.rises;
    const double reach_mm =
        leaf_reach_mm_ + (driven_centre_ - motions.swing.centre()).norm() + kClearanceCap_mm + clearance_mm;
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
        if (!drivenClears(driven(face), part, motions.standing_from_driven)) return false;
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
