// SPDX-License-Identifier: GPL-3.0-or-later
#include "hems/hem_closer.h"

#include <algorithm>

#include <tinwright/brake/machines/hemming.h>
#include <tinwright/brake/machines/shop.h>

namespace tinwright {

namespace {

bool isReturn(const StrokeScene& scene, const Part& part, const GroupRecord& contact) {
    return std::any_of(scene.bends.begin(), scene.bends.end(),
                       [&](const StrokeBend& bend) { return part.bend(bend.bend).child.index() == contact.group; });
}

bool allBeyond(const std::vector<Solid>& some, const std::vector<Solid>& others) {
    return std::all_of(some.begin(), some.end(), [&](const Solid& one) {
        return std::all_of(others.begin(), others.end(),
                           [&](const Solid& other) { return liesBeyond(one, other, -kContactTolerance_mm); });
    });
}

}  // namespace

HemCloser::HemCloser(ContactCache& table, SceneBuilder& scenes, const Shop& shop)
    : table_(table), scenes_(scenes), shop_(&shop), groups_(table.machine()) {}

std::optional<NoHem> HemCloser::whyNot(const std::vector<BendId>& bends) const {
    for (const BendId bend : bends) {
        if (!part().bend(bend).hem) continue;
        if (auto why = whyNoHem(table_.bodies().onBrake(), *shop_, table_.machine().brake(), bend)) return why;
    }
    return std::nullopt;
}

const HemCloser::AtRest& HemCloser::atRest(const StrokeScene& fold) {
    BendMask bends = 0;
    for (const StrokeBend& bend : fold.bends) bends |= bit(bend.bend);
    const auto [entry, is_new] = at_rest_.try_emplace({fold.formed, bends});
    AtRest& at_rest = entry->second;
    if (!is_new) return at_rest;
    at_rest.scene = *scenes_.scene(fold.formed, {bends, Side::kChild});
    for (const GroupUse& use : at_rest.scene.uses) {
        if (!isReturn(at_rest.scene, part(), table_.at(use.record))) at_rest.others.push_back(use);
    }
    measure(at_rest);
    lookAtReturns(at_rest);
    return at_rest;
}

void HemCloser::measure(AtRest& at_rest) {
    const StrokeBend& first = at_rest.scene.bends.front();
    const Bend& line = part().bend(first.bend);
    const double thickness_mm = part().thickness_mm;
    const double line_y =
        (table_.geometry().bendFrame(first.bend, first.hold) * Vec3(line.origin.x(), line.origin.y(), 0)).y();
    at_rest.size.crest_mm = line_y - 0.5 * line.hem->allowance_mm + 0.5 * line.hem->gap_mm + thickness_mm;
    at_rest.size.height_mm = 2 * thickness_mm + line.hem->gap_mm;
    for (const StrokeBend& own : at_rest.scene.bends) {
        const auto [sweep, is_new] = sweeps_.try_emplace(own.bend);
        if (is_new) sweep->second = sweepOfHem(table_, own.bend);
        at_rest.size.depth_mm = std::max(at_rest.size.depth_mm, hemDepth_mm(part(), own.bend));
        at_rest.size.stands_mm = std::max(at_rest.size.stands_mm, sweep->second.stands_mm);
    }
}

void HemCloser::lookAtReturns(AtRest& at_rest) {
    for (const StrokeBend& own : at_rest.scene.bends) {
        for (const GroupUse& use : at_rest.others) lookAt(own, use, at_rest);
        for (const StrokeBend& other : at_rest.scene.bends) {
            const Micron shift = other.shift_um - own.shift_um;
            if (other.bend <= own.bend ||
                allBeyond(sweeps_.at(own.bend).swept, shiftedAlong(sweeps_.at(other.bend).swept, shift)))
                continue;
            at_rest.meets = true;
            at_rest.between = {part().bend(own.bend).child, part().bend(other.bend).child};
        }
    }
}

// The parent is where the return is meant to lie.
void HemCloser::lookAt(const StrokeBend& own, const GroupUse& use, AtRest& at_rest) {
    const Bend& bend = part().bend(own.bend);
    const std::size_t group = table_.at(use.record).group;
    if (group == bend.parent.index()) return;
    const HemSweep& sweep = sweeps_.at(own.bend);
    const std::vector<Solid> there =
        shiftedAlong(table_.records().atRest(use.record, Phase::kBefore), use.shift_um - own.shift_um);
    if (allBeyond(sweep.swept, there)) return;
    at_rest.meets = true;
    at_rest.surely_meets = at_rest.surely_meets || !allBeyond(sweep.first, there) || !allBeyond(sweep.closed, there);
    at_rest.between = {bend.child, table_.bodies().groups()[group].ref()};
}

IntervalSet HemCloser::met(const AtRest& at_rest, const std::vector<ToolMove>& moves) {
    IntervalSet result;
    for (const ToolMove& move : moves) {
        for (const auto& [from, to] : move.sweeps) {
            GroupShadows::Moved& moved = groups_.moved({move.body, from.x(), from.y(), to.x(), to.y()});
            for (const GroupUse& use : at_rest.others) {
                result.addShifted(groups_.of(moved, groups_.idOf(table_.records().atRest(use.record, Phase::kBefore))),
                                  use.shift_um);
            }
        }
    }
    return result;
}

IntervalSet HemCloser::metByPieces(const AtRest& at_rest, const HemTools& tools, std::size_t family, bool up) {
    IntervalSet result = met(at_rest, tools.high(family, up));
    const std::vector<ToolMove> low = tools.low(family);
    if (!low.empty()) result.add(withRelief(met(at_rest, low), table_.machine().families()[family].relief, result));
    return result.grown(micronCeil(0.5 * table_.limits().plus_side_mm));
}

// The pieces stand; the part is put where they cover the hem, nearest to the middle of them.
std::optional<Micron> HemCloser::place(const AlongMachine& along, const AtRest& at_rest, const Placed& placed,
                                       const HemTools& tools, bool up) {
    const Machine& machine = table_.machine();
    Obstacles blocked;
    blocked.bars.resize(machine.families().size());
    blocked.machine = met(at_rest, tools.longMoves(up));
    if (machine.frames() >= 0) blocked.frames = met(at_rest, {tools.frames()});
    std::vector<bool> asked(blocked.bars.size(), false);
    IntervalSet barred;
    for (const StandingTool& bar : placed.bars) {
        const std::size_t family = machine.familyOf(bar.tool);
        if (!asked[family]) blocked.bars[family] = metByPieces(at_rest, tools, family, up);
        asked[family] = true;
        const Interval at{bar.at.lo + placed.part_x_um, bar.at.hi + placed.part_x_um};
        for (const Interval& item : blocked.bars[family].items())
            barred.add(Interval{at.lo - item.hi, at.hi - item.lo});
    }
    IntervalSet room = along.partRoom(at_rest.scene, blocked, 0);
    room.subtract(barred);
    for (const Interval& station : along.stationsOf(placed)) {
        const Micron wanted =
            (station.lo + station.hi - at_rest.scene.needs.front().lo - at_rest.scene.needs.back().hi) / 2;
        for (const Interval& item : room.items()) {
            const Micron part_x = std::clamp(wanted, item.lo, item.hi);
            BarString bars = placed.bars;
            for (StandingTool& bar : bars)
                bar.at = {bar.at.lo + placed.part_x_um - part_x, bar.at.hi + placed.part_x_um - part_x};
            if (along.covered(at_rest.scene, bars)) return part_x;
        }
    }
    return std::nullopt;
}

std::optional<HemClosing> HemCloser::close(const AlongMachine& along, const StrokeScene& fold, const Placed& placed,
                                           Certainty certainty) {
    const AtRest& now = atRest(fold);
    if (certainty == Certainty::kInner ? now.surely_meets : now.meets) return std::nullopt;
    ClosingTrouble why;
    const std::optional<HemTools> tools = HemTools::of(table_.machine(), placed, now.size, why);
    if (!tools) return std::nullopt;
    for (const bool up : {false, true}) {
        if (up && !tools->loose()) break;
        const std::optional<Micron> part_x = place(along, now, placed, *tools, up);
        if (!part_x) continue;
        return HemClosing{toMm(*part_x),
                          fold.bends.front().hold == Side::kParent,
                          tools->front_mm(),
                          tools->inserted_mm(),
                          now.size.stands_mm,
                          now.size.height_mm,
                          up};
    }
    return std::nullopt;
}

ClosingTrouble HemCloser::trouble(const StrokeScene& fold, const Placed& placed) {
    const AtRest& now = atRest(fold);
    ClosingTrouble why;
    if (now.meets) {
        why.why = ClosingTrouble::Why::kMeets;
        why.between = now.between;
    } else if (HemTools::of(table_.machine(), placed, now.size, why)) {
        why.why = ClosingTrouble::Why::kRestInTheWay;
    }
    return why;
}

}  // namespace tinwright
