// SPDX-License-Identifier: GPL-3.0-or-later
#include "tolerances/tolerance_check.h"

#include <algorithm>

namespace tinwright {

namespace {

// A piece lifted by hand gives way to a wall that leans over it; so does the part under a rising beam. In the order
// tried.
const std::vector<double> kGives_mm{0, 4, 1.5, 10};

// The bodies as long as the machine, with a leaf face.
std::vector<std::size_t> longBodies(const Machine& machine, std::size_t face) {
    const std::vector<std::size_t> bodies = machine.longBodies(face);
    return bodies;
}

Interval back(Interval at, Micron shift_um) { return {at.lo - shift_um, at.hi - shift_um}; }

Interval machineOf(const Machine& machine, const Placed& placed) {
    return {-placed.part_x_um, micronFloor(machine.brake()->length_mm) - placed.part_x_um};
}

}  // namespace

bool strokeJoins(const ContactCache& table, const StrokeScene& scene, const GroupUse& moving, const GroupUse& held) {
    const Part& part = table.bodies().part();
    return std::any_of(scene.bends.begin(), scene.bends.end(), [&](const StrokeBend& bend) {
        const Bend& line = part.bend(bend.bend);
        return table.at(moving.record).group == movingPanel(line, bend.hold).index() &&
               table.at(held.record).group == heldPanel(line, bend.hold).index();
    });
}

void ToleranceCheck::Worst::take(double lack, BodyRef a, BodyRef b) {
    if (lack <= lack_mm) return;
    lack_mm = lack;
    between = {a, b};
}

BodyRef ToleranceCheck::bodyOf(std::uint32_t record) {
    return table_.nominal().bodies().groups()[table_.nominal().at(record).group].ref();
}

void ToleranceCheck::addObstacles(const StrokeScene& scene, std::size_t face, Obstacles& obstacles) {
    const Machine& machine = table_.nominal().machine();
    std::vector<IntervalSet> lows(machine.families().size());
    for (const GroupUse& use : scene.uses) {
        for (const std::size_t body : longBodies(machine, face))
            obstacles.machine.addShifted(table_.shadow(use.record, body), use.shift_um);
        for (std::size_t f = 0; f < machine.families().size(); ++f) {
            const ToolFamily& family = machine.families()[f];
            obstacles.bars[f].addShifted(table_.shadow(use.record, family.high), use.shift_um);
            if (family.low >= 0)
                lows[f].addShifted(table_.shadow(use.record, static_cast<std::size_t>(family.low)), use.shift_um);
        }
    }
    for (std::size_t f = 0; f < lows.size(); ++f) {
        obstacles.bars[f].add(withRelief(lows[f], machine.families()[f].relief, obstacles.bars[f]));
    }
}

bool ToleranceCheck::familyFits(const StrokeScene& scene, std::size_t family, std::size_t face) {
    return std::all_of(scene.bends.begin(), scene.bends.end(),
                       [&](const StrokeBend& bend) { return table_.familyFits(bend.bend, bend.hold, family, face); });
}

bool ToleranceCheck::drivenClearsBeam(const StrokeScene& scene, std::size_t face) {
    return table_.drivenClearsBeam(scene.bends.front().bend, face);
}

bool ToleranceCheck::linesAgree(const StrokeScene& scene) const {
    const StrokeBend& first = scene.bends.front();
    return std::all_of(scene.bends.begin(), scene.bends.end(), [&](const StrokeBend& bend) {
        return table_.oneSheet(first.bend, first.hold, bend.bend, bend.hold, scene.formed);
    });
}

void ToleranceCheck::takeMembers(const StrokeScene& scene, Worst& worst,
                                 std::vector<std::array<BodyRef, 2>>& may_touch) {
    const auto take = [&](const ToleranceTable::MemberLack& lack, BodyRef a, BodyRef b) {
        if (lack.may_touch) may_touch.push_back({a, b});
        worst.take(lack.lack_mm, a, b);
    };
    for (const GroupUse& moving : scene.uses) {
        if (!moving.moving) continue;
        for (const GroupUse& held : scene.uses) {
            if (held.moving || strokeJoins(table_.nominal(), scene, moving, held)) continue;
            take(table_.pair(moving.record, held.record, moving.shift_um - held.shift_um), bodyOf(moving.record),
                 bodyOf(held.record));
        }
    }
    const Part& part = table_.nominal().bodies().part();
    for (const StrokeBend& bend : scene.bends) {
        const Bend& line = part.bend(bend.bend);
        for (const GroupUse& use : scene.uses) {
            const std::size_t group = table_.nominal().at(use.record).group;
            if (group == line.parent.index() || group == line.child.index()) continue;
            take(table_.strip(bend.bend, bend.hold, use.record, bend.shift_um - use.shift_um), bend.bend,
                 bodyOf(use.record));
        }
    }
}

bool ToleranceCheck::membersHold(const StrokeScene& scene) {
    Worst worst;
    std::vector<std::array<BodyRef, 2>> may_touch;
    if (!linesAgree(scene)) return false;
    takeMembers(scene, worst, may_touch);
    return worst.lack_mm == 0;
}

void ToleranceCheck::takeBody(const GroupUse& use, std::size_t body, Interval at, BodyRef what, Worst& worst) {
    if (const double lack = table_.lack_mm(use.record, body, at); lack > 0) worst.take(lack, bodyOf(use.record), what);
}

void ToleranceCheck::takeBodies(const StrokeScene& scene, const Placed& placed, Worst& worst) {
    const Machine& machine = table_.nominal().machine();
    const Interval window = machineOf(machine, placed);
    for (const GroupUse& use : scene.uses) {
        for (const std::size_t body : longBodies(machine, placed.face)) {
            takeBody(use, body, back(window, use.shift_um), machine.bodies()[body].what, worst);
        }
        for (const StandingTool& bar : placed.bars) {
            const BodyRef tool = machine.bodyOf(bar.tool);
            const ToolFamily& family = machine.families()[machine.familyOf(bar.tool)];
            takeBody(use, family.high, back(bar.at, use.shift_um), tool, worst);
            if (family.low < 0) continue;
            const Interval low = family.relief.shortened(bar.at);
            if (!low.empty()) takeBody(use, static_cast<std::size_t>(family.low), back(low, use.shift_um), tool, worst);
        }
    }
}

bool ToleranceCheck::toolsFit(const StrokeScene& scene, const Placed& placed, Worst& worst) {
    const Machine& machine = table_.nominal().machine();
    for (const StandingTool& bar : placed.bars) {
        if (familyFits(scene, machine.familyOf(bar.tool), placed.face)) continue;
        worst.between = {BodyRef::Kind::kLeaf, machine.bodyOf(bar.tool)};
        return false;
    }
    if (drivenClearsBeam(scene, placed.face)) return true;
    worst.between = {BodyRef::Kind::kLeaf, BodyRef::Kind::kBeam};
    return false;
}

// ---- ways in and out ----

RestShadows ToleranceCheck::atRest(const StrokeScene& scene, Phase phase, bool plainly) {
    std::vector<RestGroup> part;
    for (const GroupUse& use : scene.uses) {
        if (plainly && table_.liesOutOfTheWay(use.record, phase)) continue;
        const bool above_bed = table_.liesAboveBed(use.record, phase);
        part.push_back(
            {&table_.atRest(use.record, phase, SeenFrom::kBars), use.shift_um, table_.nominal().at(use.record).is_arc,
             above_bed ? nullptr : &table_.atRest(use.record, phase, SeenFrom::kBed),
             above_bed ? table_.box().thickness_mm : -1, phase == Phase::kAfter && table_.leavesTheNose(use.record)});
    }
    RestShadows shadows(table_.nominal().machine(), std::move(part), groups_, escapes_);
    shadows.mayGive(kGives_mm);
    return shadows;
}

bool ToleranceCheck::wayHolds(const StrokeScene& scene, Phase phase, const Placed& placed, TolerantWays& ways,
                              bool straight_only, const WayOut& told, bool& plain) {
    const Machine& machine = table_.nominal().machine();
    auto& shadows = phase == Phase::kAfter ? ways.after : ways.before;
    if (!shadows) shadows = atRest(scene, phase);
    if (wayServes(machine, *shadows, placed, told)) return true;
    if (!machine.exits().loose()) return false;
    const WayOut way = findWayOut(machine, *shadows, placed, straight_only);
    plain = plain && way.plain;
    return way.found;
}

WayOut ToleranceCheck::toldWay(const StrokeScene& scene, Phase phase, const Placed& placed, WayOut nominal) {
    RestShadows shadows = atRest(scene, phase);
    if (wayServes(table_.nominal().machine(), shadows, placed, nominal)) return nominal;
    WayOut way = findWayOut(table_.nominal().machine(), shadows, placed, false);
    return way.found ? way : nominal;
}

bool ToleranceCheck::servesAll(const StrokeScene& scene, Phase phase, const Placed& placed, const WayOut& told) {
    const bool plainly = std::all_of(told.moves.begin(), told.moves.end(), [](const ExitMove& move) {
        return move.kind == ExitMove::Kind::kPieceUp || move.kind == ExitMove::Kind::kPartUp ||
               move.kind == ExitMove::Kind::kPartForward;
    });
    RestShadows shadows = atRest(scene, phase, plainly);
    return wayServes(table_.nominal().machine(), shadows, placed, told);
}

Holding ToleranceCheck::judge(const StrokeScene& scene, const Placed& placed, const WayOut& way_in,
                              const WayOut& way_out) {
    if (!table_.nominal().machine().knowsTolerances()) {
        Holding holding;
        holding.over = table_.box();
        holding.looked_at = false;
        return holding;
    }
    std::vector<Micron> key{static_cast<Micron>(scene.formed), static_cast<Micron>(placed.face), placed.part_x_um};
    for (const StrokeBend& bend : scene.bends)
        key.insert(key.end(), {static_cast<Micron>(bend.bend.value), static_cast<Micron>(bend.hold)});
    key.push_back(-1);
    for (const StandingTool& bar : placed.bars)
        key.insert(key.end(), {static_cast<Micron>(bar.tool.value), bar.at.lo, bar.at.hi});
    for (const WayOut* way : {&way_in, &way_out}) {
        key.push_back(micronNearest(way->lift_mm));
        for (const ExitMove& move : way->moves) {
            const ExitMove::Point& end = move.path.back();
            key.insert(key.end(),
                       {static_cast<Micron>(move.kind), move.piece, micronNearest(end.x_mm), micronNearest(end.z_mm)});
        }
    }
    const auto known = judged_.find(key);
    if (known != judged_.end()) return known->second;
    return judged_.emplace(std::move(key), computeHolding(scene, placed, way_in, way_out)).first->second;
}

Holding ToleranceCheck::computeHolding(const StrokeScene& scene, const Placed& placed, const WayOut& way_in,
                                       const WayOut& way_out) {
    Holding holding;
    holding.over = table_.box();
    Worst worst;
    if (!linesAgree(scene)) {
        holding.open = Holding::Open::kLine;
        return holding;
    }
    takeBodies(scene, placed, worst);
    takeMembers(scene, worst, holding.may_touch);
    if (worst.lack_mm > 0 || !toolsFit(scene, placed, worst)) {
        holding.open = Holding::Open::kStroke;
    } else if (!servesAll(scene, Phase::kBefore, placed, way_in)) {
        holding.open = Holding::Open::kWayIn;
    } else if (!servesAll(scene, Phase::kAfter, placed, way_out)) {
        holding.open = Holding::Open::kWayOut;
    }
    holding.holds = holding.open == Holding::Open::kNothing;
    holding.lacks_mm = worst.lack_mm;
    holding.between = worst.between;
    return holding;
}

}  // namespace tinwright
