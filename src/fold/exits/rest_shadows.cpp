// SPDX-License-Identifier: GPL-3.0-or-later
#include "exits/rest_shadows.h"

#include <algorithm>

#include <tinwright/brake/machines/brake.h>

namespace tinwright {

namespace {

constexpr double kOutside_mm = PlanarEscape::kOut_mm;
const Vec2 kLiftWay(0, 1);
const Vec2 kBackWay(1, 0);

// x at which the part at rest meets sections that run along x.
IntervalSet groupShadow(const std::vector<Solid>& solids, const SweptSections& sections) {
    IntervalSet met;
    for (const Solid& solid : solids) {
        const Interval whole{micronFloor(solid.x_lo_mm() - kRounding_mm), micronCeil(solid.x_hi_mm() + kRounding_mm)};
        std::vector<Solid::Face> faces;
        for (std::size_t i = 0; i < sections.swept.size() && !met.covers(whole); ++i) {
            if (apart(solid.section(), sections.swept[i])) continue;
            if (solid.uniform()) {
                met.add(Interval{micronFloor(solid.x_lo_mm()), micronCeil(solid.x_hi_mm())});
                break;
            }
            if (faces.empty()) faces = solid.faces();
            if (const auto range = solid.xRangeIn(sections.windows[i], faces)) {
                met.add(Interval{micronFloor(range->first - kRounding_mm), micronCeil(range->second + kRounding_mm)});
            }
        }
    }
    return met;
}

bool allApart(const Convex2& hull, const SweptSections& sections, double margin_mm) {
    return std::all_of(sections.swept.begin(), sections.swept.end(),
                       [&](const Convex2& section) { return apart(hull, section, margin_mm); });
}

Convex2 hullOfSections(const std::vector<Solid>& solids) {
    std::vector<Vec2> corners;
    for (const Solid& solid : solids)
        corners.insert(corners.end(), solid.section().points().begin(), solid.section().points().end());
    return Convex2(hullOf(std::move(corners)));
}

}  // namespace

SweptSections::SweptSections(const std::vector<Convex2>& sections, const Vec2& from, const Vec2& to) {
    for (const Convex2& section : sections) {
        swept.push_back(sweptBy(section.moved(from).points(), to - from));
        windows.push_back(swept.back().window());
    }
}

GroupShadows::GroupId GroupShadows::idOf(const std::vector<Solid>& solids) {
    const auto [entry, is_new] = ids_.try_emplace(&solids, static_cast<GroupId>(groups_.size()));
    if (is_new) groups_.push_back({&solids, hullOfSections(solids)});
    return entry->second;
}

const IntervalSet& GroupShadows::of(Moved& moved, GroupId group) {
    if (moved.by_group.size() <= group) moved.by_group.resize(groups_.size(), kUnknown);
    std::uint32_t& shadow = moved.by_group[group];
    if (shadow != kUnknown) return shadows_[shadow];
    const Known& known = groups_[group];
    IntervalSet met =
        allApart(known.hull, moved.sections, 0) ? IntervalSet() : groupShadow(*known.solids, moved.sections);
    shadow = met.empty() ? kNone : static_cast<std::uint32_t>(shadows_.size());
    if (!met.empty()) shadows_.push_back(std::move(met));
    return shadows_[shadow];
}

GroupShadows::Moved& GroupShadows::moved(const Move& move) {
    const auto [entry, is_new] = moves_.try_emplace(move);
    const auto& [body, from_y, from_z, to_y, to_z] = move;
    if (is_new)
        entry->second.sections =
            SweptSections(machine_->bodies()[body].section, Vec2(from_y, from_z), Vec2(to_y, to_z));
    return entry->second;
}

RestShadows::RestShadows(const Machine& machine, std::vector<RestGroup> part, GroupShadows& groups, EscapeMemo& escapes)
    : machine_(&machine), part_(std::move(part)), groups_(&groups), escapes_(&escapes) {
    for (const RestGroup& group : part_) {
        const GroupShadows::GroupId from_bars = groups.idOf(*group.solids);
        ids_.push_back({from_bars, group.on_bed == nullptr ? from_bars : groups.idOf(*group.on_bed)});
    }
}

IntervalSet RestShadows::moved(std::size_t body, const Vec2& from, const Vec2& to) {
    IntervalSet result;
    const BodyKind kind = machine_->bodies()[body].kind;
    const double rise_mm = RestGroup::isUnder(kind) ? rise_mm_ : 0;
    GroupShadows::Moved& moved = groups_->moved({body, from.x(), from.y() + rise_mm, to.x(), to.y() + rise_mm});
    const bool level = from.y() == 0 && to.y() == 0;
    const bool under = RestGroup::isUnder(kind);
    for (std::size_t i = 0; i < part_.size(); ++i) {
        const RestGroup& group = part_[i];
        if (under ? group.aboveBed() : group.leaves_nose && level) continue;
        const IntervalSet& shadow = groups_->of(moved, under ? ids_[i].from_under : ids_[i].from_bars);
        if (!shadow.empty()) result.addShifted(shadow, group.shift_um);
    }
    return result;
}

const IntervalSet& RestShadows::bars(std::size_t family, const Vec2& from, const Vec2& to) {
    const auto [entry, is_new] = known_.try_emplace({true, family, from.x(), from.y(), to.x(), to.y()});
    if (!is_new) return entry->second;
    const ToolFamily& bars = machine_->families()[family];
    entry->second = moved(bars.high, from, to);
    if (bars.low >= 0) {
        const IntervalSet low = moved(static_cast<std::size_t>(bars.low), from, to);
        entry->second.add(keeps_points_ ? withRelief(low, bars.relief, entry->second) : insideRelief(low, bars.relief));
    }
    return entry->second;
}

const IntervalSet& RestShadows::noLift(std::size_t family, std::size_t back_step, std::size_t give) {
    if (no_lift_.empty()) no_lift_.resize(machine_->families().size() * kBackSteps_mm.size() * gives_mm_.size());
    std::optional<IntervalSet>& known = no_lift_[(family * kBackSteps_mm.size() + back_step) * gives_mm_.size() + give];
    if (known) return *known;
    const Vec2 back = kBackWay * (kBackSteps_mm[back_step] + gives_mm_[give]);
    known = bars(family, back, back + kLiftWay * kOutside_mm);
    if (back.x() > 0) known->add(bars(family, Vec2::Zero(), back));
    return *known;
}

const IntervalSet& RestShadows::body(std::size_t body, const Vec2& from, const Vec2& to) {
    const auto [entry, is_new] = known_.try_emplace({false, body, from.x(), from.y(), to.x(), to.y()});
    if (is_new) entry->second = moved(body, from, to);
    return entry->second;
}

PlainExits::PlainExits(const Machine& machine) : machine_(&machine), bars_(machine.families().size()) {
    if (!machine.exits().plain_known) return;
    const bool loose = machine.exits().loose();
    bars_stay_ = loose && machine.beam() >= 0;
    const Vec2 raised = kLiftWay * machine.exits().opening_mm;
    for (std::size_t family = 0; family < bars_.size() && !bars_stay_; ++family) {
        addStep(family, Vec2::Zero(), loose ? Vec2(kLiftWay * kOutside_mm) : raised);
        if (!loose) addStep(family, raised, raised + kBackWay * kOutside_mm);
    }
    const Vec2 by = loose ? Vec2(-kLiftWay * kOutside_mm) : Vec2(kBackWay * kOutside_mm);
    for (std::size_t i = 0; i < machine.bodies().size(); ++i) {
        const Body& body = machine.bodies()[i];
        if (body.kind == BodyKind::kBed || body.kind == BodyKind::kLeaf)
            bodies_.push_back({i, SweptSections(body.section, Vec2::Zero(), by)});
        if (body.kind == BodyKind::kBeam && !loose)
            bodies_.push_back({i, SweptSections(body.section, raised, raised + by)});
    }
    for (std::size_t face = 0; face < machine.faceCount(); ++face) {
        const std::vector<std::size_t> standing = machine.longBodies(face);
        std::vector<bool>& on = on_face_.emplace_back();
        for (const BodyWay& way : bodies_)
            on.push_back(std::find(standing.begin(), standing.end(), way.body) != standing.end());
    }
}

void PlainExits::addStep(std::size_t family, const Vec2& from, const Vec2& to) {
    const ToolFamily& bars = machine_->families()[family];
    BarStep step{SweptSections(machine_->bodies()[bars.high].section, from, to), {}};
    if (bars.low >= 0)
        step.low = SweptSections(machine_->bodies()[static_cast<std::size_t>(bars.low)].section, from, to);
    bars_[family].push_back(std::move(step));
}

bool PlainExits::clearOfBars(const Convex2& hull, double margin_mm) const {
    if (bars_stay_) return false;
    return std::all_of(bars_.begin(), bars_.end(), [&](const std::vector<BarStep>& steps) {
        return std::all_of(steps.begin(), steps.end(), [&](const BarStep& step) {
            return allApart(hull, step.high, margin_mm) && allApart(hull, step.low, margin_mm);
        });
    });
}

bool PlainExits::clearOfBodies(const Convex2& hull, double margin_mm) const {
    return std::all_of(bodies_.begin(), bodies_.end(),
                       [&](const BodyWay& body) { return allApart(hull, body.swept, margin_mm); });
}

void PlainExits::addBars(std::size_t family, const std::vector<Solid>& solids, IntervalSet& barred,
                         IntervalSet& surely) const {
    if (bars_stay_) {
        barred.add(Interval{-kFar / 2, kFar / 2});
        surely = barred;
        return;
    }
    const Relief& relief = machine_->families()[family].relief;
    for (const BarStep& step : bars_[family]) {
        const IntervalSet high = groupShadow(solids, step.high);
        barred.add(high);
        surely.add(high);
        const IntervalSet low = groupShadow(solids, step.low);
        barred.add(withRelief(low, relief, high));
        surely.add(insideRelief(low, relief));
    }
}

IntervalSet PlainExits::bodies(std::size_t face, const std::vector<Solid>& solids) const {
    IntervalSet result;
    for (std::size_t i = 0; i < bodies_.size() && face < on_face_.size(); ++i) {
        if (on_face_[face][i]) result.add(groupShadow(solids, bodies_[i].swept));
    }
    return result;
}

}  // namespace tinwright
