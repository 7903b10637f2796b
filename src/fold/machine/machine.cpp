// SPDX-License-Identifier: GPL-3.0-or-later
#include "machine/machine.h"

#include <algorithm>
#include <utility>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/geometry/polygons.h>

#include "machine/leaf_machine.h"
#include "machine/machine_sections.h"
#include "machine/press_machine.h"

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

std::vector<std::size_t> Machine::longBodies(std::size_t face) const {
    std::vector<std::size_t> bodies = under_[face];
    bodies.insert(bodies.end(), over_[face].begin(), over_[face].end());
    return bodies;
}

ToolId Machine::toolOf(std::size_t family) const {
    const std::vector<ToolId>& tools = brake_.tools();
    return *std::find_if(tools.begin(), tools.end(), [&](ToolId tool) { return familyOf(tool) == family; });
}

bool Machine::drivenClears(std::size_t driven, std::size_t body, const Motion& body_from_driven,
                           double margin_mm) const {
    for (const Convex2& piece : bodies_[body].section) {
        const SeenSection seen(piece, body_from_driven);
        for (const ToolPiece& face : bodies_[driven].pieces) {
            if (!staysClear(seen, body_from_driven, face.section, face.ring, margin_mm, kLeafDepth)) return false;
        }
    }
    return true;
}

bool Machine::standsOn(std::size_t, std::size_t) const { return true; }

double Machine::rise_mm(double) const { return 0; }

double Machine::lift_mm(std::size_t, double) const { return exits_.opening_mm; }

double Machine::openHeight_mm() const { return 0; }

std::size_t Machine::addBody(BodyRef::Kind what, BodyKind kind, const std::vector<Polygon>& sections, bool driven,
                             std::size_t packing) {
    const double strips_mm = driven && !packings_[packing].on_leaf ? 0 : packings_[packing].height_mm;
    Body body{what, kind, driven, packing, strips_mm, {}, {}, {}};
    const Vec2& centre = driven && kind == BodyKind::kLeaf ? driven_centres_[packing] : centre_;
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

bool Machine::joinsFamily(ToolId tool) {
    for (const ToolId other : brake_.tools()) {
        if (other == tool) return false;
        if (!sameSection(*brake_, other, tool)) continue;
        family_of_[tool.index()] = family_of_[other.index()];
        return true;
    }
    return false;
}

ToolFamily Machine::newFamily(ToolId id) const {
    const Tool& tool = brake_->tool(id);
    ToolFamily family;
    family.row = brake_->rowOf(id);
    family.height_mm = tool.height_mm;
    family.section = family.row == ToolRow::kLower ? tool.profile : shifted(tool.profile, Vec2(0, thickness_mm_));
    return family;
}

std::unique_ptr<const Machine> makeMachine(const BrakeInSetup& brake, double thickness_mm,
                                           const std::vector<double>& packings_mm) {
    struct Make {
        const BrakeInSetup& brake;
        double thickness_mm;
        const std::vector<double>& packings_mm;
        std::unique_ptr<const Machine> operator()(const LeafBrake&) const {
            return std::make_unique<LeafMachine>(brake, thickness_mm, packings_mm);
        }
        std::unique_ptr<const Machine> operator()(const PressBrake&) const {
            return std::make_unique<PressMachine>(brake, thickness_mm);
        }
    };
    return std::visit(Make{brake, thickness_mm, packings_mm}, brake->kind);
}

}  // namespace tinwright
