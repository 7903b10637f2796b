// SPDX-License-Identifier: GPL-3.0-or-later
#include "lying_shadows.h"

namespace tinwright {

namespace {

constexpr double kOut_mm = PlanarEscape::kOut_mm;
const Vec2 kUp(0, 1);
const Vec2 kBack(1, 0);

// x at which the lying part meets sections that run along x.
IntervalSet groupShadow(const std::vector<Solid>& solids, const SweptSections& sections) {
    IntervalSet met;
    for (const Solid& solid : solids) {
        std::vector<Solid::Face> faces;
        for (std::size_t i = 0; i < sections.swept.size(); ++i) {
            if (apart(solid.section(), sections.swept[i])) continue;
            if (solid.uniform()) {
                met.add(Interval{micronFloor(solid.x_lo_mm()), micronCeil(solid.x_hi_mm())});
                continue;
            }
            if (faces.empty()) faces = solid.faces();
            if (const auto range = solid.xRangeIn(sections.windows[i], faces)) {
                met.add(Interval{micronFloor(range->first - kRounding_mm), micronCeil(range->second + kRounding_mm)});
            }
        }
    }
    return met;
}

IntervalSet stillShadow(const std::vector<LyingGroup>& part, const SweptSections& sections) {
    IntervalSet result;
    for (const LyingGroup& group : part) result.addShifted(groupShadow(*group.solids, sections), group.shift_um);
    return result;
}

IntervalSet familyShadow(const LeafMachine& machine, std::size_t family, const std::vector<LyingGroup>& part, const Vec2& from,
                         const Vec2& to) {
    const BarFamily& bars = machine.families()[family];
    IntervalSet result = stillShadow(part, SweptSections(machine.bodies()[bars.high].section, from, to));
    if (bars.low >= 0) {
        const std::vector<Convex2>& low = machine.bodies()[static_cast<std::size_t>(bars.low)].section;
        result.add(withRelief(stillShadow(part, SweptSections(low, from, to)), bars.relief_um, result));
    }
    return result;
}

}  // namespace

SweptSections::SweptSections(const std::vector<Convex2>& sections, const Vec2& from, const Vec2& to) {
    for (const Convex2& section : sections) {
        swept.push_back(sweptBy(section.moved(from).points(), to - from));
        windows.push_back(swept.back().window());
    }
}

const IntervalSet& GroupShadows::of(const std::vector<Solid>& solids, const Move& move) {
    const auto [entry, is_new_move] = moves_.try_emplace(move);
    Moved& moved = entry->second;
    const auto& [body, from_y, from_z, to_y, to_z] = move;
    if (is_new_move) moved.sections = SweptSections(machine_->bodies()[body].section, Vec2(from_y, from_z), Vec2(to_y, to_z));
    const auto [shadow, is_new] = moved.by_group.try_emplace(&solids);
    if (is_new) shadow->second = groupShadow(solids, moved.sections);
    return shadow->second;
}

IntervalSet LyingShadows::moved(std::size_t body, const Vec2& from, const Vec2& to) {
    IntervalSet result;
    for (const LyingGroup& group : part_) {
        result.addShifted(groups_->of(*group.solids, {body, from.x(), from.y(), to.x(), to.y()}), group.shift_um);
    }
    return result;
}

const IntervalSet& LyingShadows::bars(std::size_t family, const Vec2& from, const Vec2& to) {
    const auto [entry, is_new] = known_.try_emplace({true, family, from.x(), from.y(), to.x(), to.y()});
    if (!is_new) return entry->second;
    const BarFamily& bars = machine_->families()[family];
    entry->second = moved(bars.high, from, to);
    if (bars.low >= 0) {
        entry->second.add(withRelief(moved(static_cast<std::size_t>(bars.low), from, to), bars.relief_um, entry->second));
    }
    return entry->second;
}

const IntervalSet& LyingShadows::body(std::size_t body, const Vec2& from, const Vec2& to) {
    const auto [entry, is_new] = known_.try_emplace({false, body, from.x(), from.y(), to.x(), to.y()});
    if (is_new) entry->second = moved(body, from, to);
    return entry->second;
}

IntervalSet plainBarShadow(const LeafMachine& machine, std::size_t family, const std::vector<LyingGroup>& part) {
    const LeafBrake& brake = machine.brake();
    if (brake.clamp == ClampKind::kLooseBars) {
        if (brake.has_beam) return IntervalSet(Interval{-kFar / 2, kFar / 2});
        return familyShadow(machine, family, part, Vec2::Zero(), kUp * kOut_mm);
    }
    const Vec2 raised = kUp * brake.opening_mm;
    IntervalSet result = familyShadow(machine, family, part, Vec2::Zero(), raised);
    result.add(familyShadow(machine, family, part, raised, raised + kBack * kOut_mm));
    return result;
}

IntervalSet plainBodyShadow(const LeafMachine& machine, const std::vector<LyingGroup>& part) {
    const bool loose = machine.brake().clamp == ClampKind::kLooseBars;
    const Vec2 by = loose ? Vec2(-kUp * kOut_mm) : Vec2(kBack * kOut_mm);
    IntervalSet result;
    for (const Body& body : machine.bodies()) {
        if (body.kind == BodyKind::kBed || body.kind == BodyKind::kLeaf) {
            result.add(stillShadow(part, SweptSections(body.section, Vec2::Zero(), by)));
        } else if (body.kind == BodyKind::kBeam && !loose) {
            const Vec2 raised = kUp * machine.brake().opening_mm;
            result.add(stillShadow(part, SweptSections(body.section, raised, raised + by)));
        }
    }
    return result;
}

}  // namespace tinwright
