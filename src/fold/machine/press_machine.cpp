// SPDX-License-Identifier: GPL-3.0-or-later
// The tools of a press brake as bodies: Machine, for punches and dies.
#include <algorithm>
#include <cmath>

#include <tinwright/brake/machines/hemming.h>
#include <tinwright/brake/tooling/die_profile.h>
#include <tinwright/geometry/polygons.h>

#include "machine/machine.h"
#include "machine/machine_sections.h"

namespace tinwright {

namespace {

constexpr double kSameHeight_mm = 0.01;
constexpr double kShortOfTop_mm = 1;  // the ram is not counted on to go up to the very end of its stroke

}  // namespace

// The bodies of a face: the ram on punches of one height, the bed under dies of one height.
void Machine::addPressBrake() {
    vee_ = *brake_.vee();
    bearing_.emplace(vee_, nose_centre_.y());  // without dies nothing can be bent: no face, no family
    addFrames();
    family_of_.resize(brake_->toolCount());
    for (const ToolId tool : brake_.tools()) addFamily(tool);
    addFaces();
    vee_free_mm_ = kBeyond_mm;
    for (const BarFamily& family : families_) {
        if (family.row == ToolRow::kLower) vee_free_mm_ = std::min(vee_free_mm_, freeDepth_mm(family.section, vee_));
    }
}

void Machine::addFrames() {
    const PressBrake& press = brake_->press();
    if (press.throat_mm <= 0) return;
    frames_ =
        static_cast<int>(addBody("side frame", BodyKind::kFrame,
                                 {rectangle(press.throat_mm, press.throat_mm + kBeyond_mm, -kBeyond_mm, kBeyond_mm)}));
}

void Machine::addFaces() {
    const auto heightsOf = [&](ToolRow row) {
        std::vector<double> heights_mm;
        for (const BarFamily& family : families_) {
            const bool known = std::any_of(heights_mm.begin(), heights_mm.end(), [&](double other) {
                return std::abs(other - family.height_mm) < kSameHeight_mm;
            });
            if (family.row == row && !known) heights_mm.push_back(family.height_mm);
        }
        return heights_mm;
    };
    for (const double die_mm : heightsOf(ToolRow::kLower)) {
        const std::size_t bed = addBody("bed", BodyKind::kBed, {shifted(brake_->press().bed, Vec2(0, -die_mm))}, true);
        for (const double punch_mm : heightsOf(ToolRow::kUpper)) {
            under_.push_back({bed});
            over_.push_back(
                {addBody("ram", BodyKind::kBeam, {shifted(brake_->press().ram, Vec2(0, thickness_mm_ + punch_mm))})});
            heights_.push_back({punch_mm, die_mm});
        }
    }
}

bool Machine::standsOn(std::size_t family, std::size_t face) const {
    if (!isPress()) return true;
    const BarFamily& bars = families_[family];
    const double height_mm = bars.row == ToolRow::kLower ? heights_[face].die_mm : heights_[face].punch_mm;
    return std::abs(bars.height_mm - height_mm) < kSameHeight_mm;
}

// The horn is full wide up to its height; all over it is cut back at its end.
void Machine::addPunchBodies(const Punch& punch, BarFamily& family) {
    if (!punch.horn) {
        family.high = addBody("punch", BodyKind::kBarHigh, {family.section});
        return;
    }
    const double cut = thickness_mm_ + punch.horn->height_mm;
    const Micron reach_um = micronFloor(punch.horn->reach_mm);
    family.relief = punch.horn->at_left ? Relief{reach_um, 0} : Relief{0, reach_um};
    family.high = addBody("punch", BodyKind::kBarHigh, between(family.section, -kBeyond_mm, cut));
    family.low = static_cast<int>(addBody("punch", BodyKind::kBarLow, between(family.section, cut, kBeyond_mm)));
}

void Machine::addDieBodies(const Die& die, BarFamily& family) {
    family.high = addBody("die", BodyKind::kDie, {family.section}, true);
    if (die.jaw) addJawBodies(die, family);
}

void Machine::addJawBodies(const Die& die, BarFamily& family) {
    const Jaw& jaw = *die.jaw;
    const Polygon section = shifted(family.section, Vec2(0, die.height_mm - jaw.floor_mm));
    const HemFlats flats = jawFlats(die);
    std::vector<Polygon> below = between(section, -kBeyond_mm, 0);
    below.push_back(
        rectangle(flats.front_mm + flats.depth_mm, flats.front_mm + flats.depth_mm + kBeyond_mm, 0, jaw.opening_mm));
    family.jaw_roof = static_cast<int>(addBody("jaw", BodyKind::kJaw, between(section, jaw.opening_mm, kBeyond_mm)));
    family.jaw_floor = static_cast<int>(addBody("jaw", BodyKind::kJaw, below));
}

double Machine::openHeight_mm() const { return brake_->press().open_height_mm - kShortOfTop_mm; }

double Machine::lift_mm(std::size_t face, double rise_mm) const {
    const PressBrake& press = brake_->press();
    const Heights& heights = heights_[face];
    // Seat to seat with the tools closed on the sheet, less than with the ram up.
    const double closed_mm = heights.punch_mm + thickness_mm_ - rise_mm + heights.die_mm;
    const double lift_mm = press.open_height_mm - closed_mm;
    return lift_mm > press.stroke_mm ? 0.0 : std::max(0.0, lift_mm - kShortOfTop_mm);
}

}  // namespace tinwright
