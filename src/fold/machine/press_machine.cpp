// SPDX-License-Identifier: GPL-3.0-or-later
#include "machine/press_machine.h"

#include <algorithm>
#include <cmath>

#include <tinwright/brake/machines/hemming.h>
#include <tinwright/brake/tooling/die_profile.h>
#include <tinwright/geometry/polygons.h>

#include "machine/machine_sections.h"

namespace tinwright {

namespace {

constexpr double kSameHeight_mm = 0.01;
constexpr double kShortOfTop_mm = 1;  // the ram is not counted on to go up to the very end of its stroke

}  // namespace

PressMachine::PressMachine(const BrakeInSetup& brake, double thickness_mm)
    : Machine(brake, thickness_mm, Vec2(0, thickness_mm + brake.inside_radius_mm())),
      bearing_(*brake.vee(), centre_.y()) {
    exits_ = {Exits::Order::kOverLower, 0, false, false, false};
    upper_piece_ = BodyRef::Kind::kPunch;
    angle_limit_ = {ReasonCode::kVeeAngle, BodyRef::Kind::kDie};
    has_lower_row_ = has_stations_ = moves_both_sides_ = is_gauged_ = true;
    if (brake_->press().gauge) gauge_ = &*brake_->press().gauge;
    addFrames();
    addFamilies([&](ToolId tool, ToolFamily& family) {
        const Punch* punch = brake_->punch(tool);
        has_horns_ = has_horns_ || (punch != nullptr && punch->horn);
        punch != nullptr ? addPunch(*punch, family) : addDie(*brake_->die(tool), family);
    });
    addFaces();
    vee_free_mm_ = kBeyond_mm;
    for (const ToolFamily& family : families_) {
        if (family.row == ToolRow::kLower)
            vee_free_mm_ = std::min(vee_free_mm_, freeDepth_mm(family.section, *brake_.vee()));
    }
}

void PressMachine::addFrames() {
    const PressBrake& press = brake_->press();
    if (press.throat_mm <= 0) return;
    between_frames_ = {micronCeil(press.frames_left_mm), micronFloor(press.frames_right_mm)};
    frames_ =
        static_cast<int>(addBody(BodyRef::Kind::kFrame, BodyKind::kFrame,
                                 {rectangle(press.throat_mm, press.throat_mm + kBeyond_mm, -kBeyond_mm, kBeyond_mm)}));
}

// The bodies of a face: the ram on punches of one height, the bed under dies of one height.
void PressMachine::addFaces() {
    const auto heightsOf = [&](ToolRow row) {
        std::vector<double> heights_mm;
        for (const ToolFamily& family : families_) {
            const bool known = std::any_of(heights_mm.begin(), heights_mm.end(), [&](double other) {
                return std::abs(other - family.height_mm) < kSameHeight_mm;
            });
            if (family.row == row && !known) heights_mm.push_back(family.height_mm);
        }
        return heights_mm;
    };
    for (const double die_mm : heightsOf(ToolRow::kLower)) {
        const std::size_t bed =
            addBody(BodyRef::Kind::kBed, BodyKind::kBed, {shifted(brake_->press().bed, Vec2(0, -die_mm))}, true);
        for (const double punch_mm : heightsOf(ToolRow::kUpper)) {
            under_.push_back({bed});
            over_.push_back({addBody(BodyRef::Kind::kRam, BodyKind::kBeam,
                                     {shifted(brake_->press().ram, Vec2(0, thickness_mm_ + punch_mm))})});
            heights_.push_back({punch_mm, die_mm});
            face_names_.emplace_back();
        }
    }
}

bool PressMachine::standsOn(std::size_t family, std::size_t face) const {
    const ToolFamily& bars = families_[family];
    const double height_mm = bars.row == ToolRow::kLower ? heights_[face].die_mm : heights_[face].punch_mm;
    return std::abs(bars.height_mm - height_mm) < kSameHeight_mm;
}

// The horn is full wide up to its height; all over it is cut back at its end.
void PressMachine::addPunch(const Punch& punch, ToolFamily& family) {
    if (!punch.horn) {
        family.high = addBody(BodyRef::Kind::kPunch, BodyKind::kBarHigh, {family.section});
        return;
    }
    const double cut = thickness_mm_ + punch.horn->height_mm;
    const Micron reach_um = micronFloor(punch.horn->reach_mm);
    family.relief = punch.horn->at_left ? Relief{reach_um, 0} : Relief{0, reach_um};
    family.high = addBody(BodyRef::Kind::kPunch, BodyKind::kBarHigh, between(family.section, -kBeyond_mm, cut));
    family.low =
        static_cast<int>(addBody(BodyRef::Kind::kPunch, BodyKind::kBarLow, between(family.section, cut, kBeyond_mm)));
}

void PressMachine::addDie(const Die& die, ToolFamily& family) {
    family.high = addBody(BodyRef::Kind::kDie, BodyKind::kDie, {family.section}, true);
    if (die.jaw) addJaw(die, family);
}

void PressMachine::addJaw(const Die& die, ToolFamily& family) {
    const Jaw& jaw = *die.jaw;
    const Polygon section = shifted(family.section, Vec2(0, die.height_mm - jaw.floor_mm));
    const HemFlats flats = jawFlats(die);
    std::vector<Polygon> below = between(section, -kBeyond_mm, 0);
    below.push_back(
        rectangle(flats.front_mm + flats.depth_mm, flats.front_mm + flats.depth_mm + kBeyond_mm, 0, jaw.opening_mm));
    family.jaw_roof =
        static_cast<int>(addBody(BodyRef::Kind::kJaw, BodyKind::kJaw, between(section, jaw.opening_mm, kBeyond_mm)));
    family.jaw_floor = static_cast<int>(addBody(BodyRef::Kind::kJaw, BodyKind::kJaw, below));
}

DrivenMotions PressMachine::fromDriven(const Swing&, const Swing& half, std::size_t) const {
    return {Motion::backFromDie(half, bearing_), Motion::frontFromDie(half, bearing_), Motion::still()};
}

bool PressMachine::reaches(double set_rad) const { return bearing_.takes(0.5 * set_rad); }

double PressMachine::rise_mm(double half_rad) const {
    if (!bearing_.takes(half_rad)) return 0;
    return bearing_.rise(std::cos(half_rad), std::sin(half_rad), 0).most_mm();
}

bool PressMachine::drivenSees(const DrivenView& group, const BendMotions&, double over_driven_mm,
                              double clearance_mm) const {
    return !group.rises || over_driven_mm < clearance_mm;
}

bool PressMachine::drivenBears(const DrivenView&, bool driven_sees) const { return !driven_sees; }

double PressMachine::openHeight_mm() const { return brake_->press().open_height_mm - kShortOfTop_mm; }

double PressMachine::lift_mm(std::size_t face, double rise_mm) const {
    const PressBrake& press = brake_->press();
    const Heights& heights = heights_[face];
    // Seat to seat with the tools closed on the sheet, less than with the ram up.
    const double closed_mm = heights.punch_mm + thickness_mm_ - rise_mm + heights.die_mm;
    const double lift_mm = press.open_height_mm - closed_mm;
    return lift_mm > press.stroke_mm ? 0.0 : std::max(0.0, lift_mm - kShortOfTop_mm);
}

}  // namespace tinwright
