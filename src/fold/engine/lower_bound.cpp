// SPDX-License-Identifier: GPL-3.0-or-later
// What folding a bend takes at least: FoldEngine::least.
//
// More of the part only ever adds to what is in the way of bars and of their ways in and out (askGrowing). So what
// holds for those groups alone whose place is settled by a set of bends holds in every state that agrees on these
// bends, and for strokes of more bends too: those press this bend as well, and have the same groups about it. Of the
// swing only witnessed contact counts, so that it holds for undecided folds also, but for those of which nothing more
// is known than that so many strings were tried and none came out.
#include <algorithm>
#include <limits>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>

#include "engine/fold_engine_impl.h"
#include "exits/planar_escape.h"

namespace tinwright {

namespace {

constexpr Micron kFar_um = 100'000'000;  // further than any machine is long

Micron longestStretch(const IntervalSet& barred, Interval within) {
    Micron longest = 0;
    const IntervalSet gaps = barred.gapsIn(within);
    for (const Interval& gap : gaps.items()) longest = std::max(longest, gap.length());
    return longest;
}

/// So many bars cover a length at least, none wider than its family may be. 0: no number does. Gaps that are allowed
/// between bars count as covered: of a single stretch one more than there are bars, since bars past a narrow obstacle
/// may stand at either end; else two for each bar.
int fewestBars(const Machine& machine, const Limits& limits, Micron length, bool single,
               const std::vector<Micron>& widest) {
    std::vector<Micron> widths;
    for (const ToolId id : machine.brake().tools()) {
        const Tool& tool = machine.brake()->tool(id);
        const Micron width = micronNearest(tool.width_mm);
        const auto count = static_cast<std::size_t>(std::min(tool.count, BarStrings::kMaxPieces));
        if (width <= widest[machine.familyOf(id)]) widths.insert(widths.end(), count, width);
    }
    std::sort(widths.rbegin(), widths.rend());
    const Micron gap = micronFloor(limits.bar_gap_mm);
    Micron covered = single ? gap : 0;
    for (std::size_t k = 0; k < widths.size(); ++k) {
        covered += widths[k] + (single ? gap : 2 * gap);
        if (covered >= length) return static_cast<int>(k) + 1;
    }
    return 0;
}

class Least {
public:
    Least(FoldEngine::Impl& engine, StrokeScene scene)
        : engine_(engine), machine_(engine.table.machine()), scene_(std::move(scene)) {}

    StrokeLowerBound run() {
        addExits();
        StrokeLowerBound lower_bound{false, false, std::numeric_limits<int>::max(), 0};
        for (std::size_t face = 0; face < machine_.faceCount(); ++face) addFace(face, lower_bound);
        if (!lower_bound.possible) lower_bound.pieces = 0;
        return lower_bound;
    }

private:
    void addExits() {
        exit_bars_.resize(machine_.families().size());
        exit_bodies_.resize(machine_.faceCount());
        for (const GroupUse& use : scene_.uses) {
            for (const Phase phase : {Phase::kBefore, Phase::kAfter}) {
                const PlainExit& exit = engine_.table.ways().of(use.record, phase);
                for (std::size_t face = 0; face < exit_bodies_.size(); ++face)
                    exit_bodies_[face].addShifted(exit.bodies[face], use.shift_um);
                for (std::size_t f = 0; f < exit_bars_.size(); ++f)
                    exit_bars_[f].addShifted(exit.sure_bars[f], use.shift_um);
            }
        }
    }

    void addFace(std::size_t face, StrokeLowerBound& lower_bound) {
        if (!engine_.placer.faceServes(scene_, face)) return;
        if (!engine_.table.tools().drivenClearsBeam(scene_.bends.front().bend, face)) return;
        Obstacles blocked = engine_.placer.obstacles(FoldEngine::Impl::askGrowing(scene_), face);
        if (engine_.placer.along().partRoom(scene_, blocked, 0).empty()) return;
        const Use any = cover(blocked, face);
        if (any.pieces == 0) return;
        lower_bound.possible = true;
        lower_bound.pieces = std::min(lower_bound.pieces, any.pieces);
        lower_bound.widest_um = std::max(lower_bound.widest_um, any.widest_um);
        if (lower_bound.plain) return;
        blocked.machine.add(exit_bodies_[face]);
        for (std::size_t f = 0; f < blocked.bars.size(); ++f) blocked.bars[f].add(exit_bars_[f]);
        lower_bound.plain =
            !engine_.placer.along().partRoom(scene_, blocked, 0).empty() && cover(blocked, face).pieces > 0;
    }

    struct Use {
        int pieces = 0;  ///< 0: nothing covers the bend
        Micron widest_um = 0;
    };

    /// What it takes to cover the stretch of bend that takes most.
    Use cover(const Obstacles& blocked, std::size_t face) {
        Use use{1, kFar_um};
        for (const Interval& need : scene_.needs) {
            const Use one = coverOne(need, blocked, face);
            if (one.pieces == 0) return {};
            if (one.pieces > use.pieces || (one.pieces == use.pieces && one.widest_um < use.widest_um)) use = one;
        }
        return use;
    }

    Use coverOne(Interval need, const Obstacles& blocked, std::size_t face) {
        const Limits& limits = engine_.table.limits();
        const Micron end = micronFloor(limits.uncovered_end_mm);
        const bool touched = need.length() <= 2 * end;  // then any bar on it will do
        const Interval must = touched ? need : Interval{need.lo + end, need.hi - end};
        if (must.length() <= micronFloor(limits.bar_gap_mm) || machine_.families().empty())
            return {1, kFar_um};  // a gap does
        std::vector<Micron> widest(machine_.families().size(), 0);
        for (std::size_t f = 0; f < widest.size(); ++f) {
            if (fits(f, face)) widest[f] = widestOn(must, f, blocked.bars[f]);
        }
        const int pieces = fewestBars(machine_, limits, touched ? 0 : must.length(), true, widest);
        return {pieces, *std::max_element(widest.begin(), widest.end())};
    }

    [[nodiscard]] bool fits(std::size_t family, std::size_t face) {
        return std::all_of(scene_.bends.begin(), scene_.bends.end(), [&](const StrokeBend& bend) {
            return engine_.table.tools().fits(bend.bend, bend.hold, family, face);
        });
    }

    /// The widest bar of a family that may stand on some of the stretch and can be brought there and taken away again.
    Micron widestOn(Interval must, std::size_t family, const IntervalSet& barred) {
        Micron widest = 0;
        const IntervalSet gaps = barred.gapsIn({-kFar_um, kFar_um});
        for (const Interval& gap : gaps.items()) {
            if (gap.lo < must.hi && must.lo < gap.hi) widest = std::max(widest, gap.length());
        }
        const bool by_hand = machine_.exits().loose() && machine_.beam() < 0;
        if (widest == 0 || !by_hand) return widest;
        for (const Phase phase : {Phase::kBefore, Phase::kAfter})
            widest = std::min(widest, widestOut(must, family, phase));
        return widest;
    }

    /// A bar is lifted where it stands, or slid in the room that the part leaves it, drawn back by some steps, and
    /// lifted; or drawn out to the back; or it goes round by several moves.
    Micron widestOut(Interval must, std::size_t family, Phase phase) {
        auto& shadows = at_rest_[phase == Phase::kAfter ? 1 : 0];
        if (!shadows) shadows = engine_.placer.atRest(scene_, phase, false);
        Micron widest = 0;
        const IntervalSet rooms = shadows->bars(family, Vec2::Zero(), Vec2::Zero()).gapsIn({-kFar_um, kFar_um});
        for (const Interval& room : rooms.items()) {
            if (room.lo >= must.hi || must.lo >= room.hi) continue;
            for (std::size_t step = 0; step < RestShadows::kBackSteps_mm.size(); ++step) {
                if (widest < room.length())
                    widest = std::max(widest, longestStretch(shadows->noLift(family, step), room));
            }
            if (widest < room.length())
                widest = std::max(
                    widest, longestStretch(shadows->bars(family, Vec2::Zero(), Vec2(PlanarEscape::kOut_mm, 0)), room));
            if (hasWider(family, widest, room.length())) return kFar_um;
        }
        return widest;
    }

    /// Whether a tool of the family is wider than one and no wider than the other.
    [[nodiscard]] bool hasWider(std::size_t family, Micron than, Micron most) const {
        const std::vector<ToolId>& tools = machine_.brake().tools();
        return std::any_of(tools.begin(), tools.end(), [&](ToolId tool) {
            const Micron width = micronNearest(machine_.brake()->tool(tool).width_mm);
            return machine_.familyOf(tool) == family && width > than && width <= most;
        });
    }

    FoldEngine::Impl& engine_;
    const Machine& machine_;
    StrokeScene scene_;
    std::vector<IntervalSet> exit_bars_;    // of the plain ways, by family
    std::vector<IntervalSet> exit_bodies_;  // by face
    std::optional<RestShadows> at_rest_[2];
};

}  // namespace

bool FoldEngine::Impl::matters(std::uint32_t record) {
    if (record >= matters_.size()) matters_.resize(record + 1, kNotAsked);
    std::uint8_t& known = matters_[record];
    if (known != kNotAsked) return known == 1;
    // What stands behind the nose is in the way of bars that are drawn back.
    const std::vector<Vec2>& hull = table.at(record).hull->points();
    bool some = std::any_of(hull.begin(), hull.end(),
                            [&](const Vec2& p) { return p.x() > 0 && p.y() > 2 * table.machine().thickness_mm(); });
    for (std::size_t body = 0; body < table.machine().bodies().size() && !some; ++body)
        some = !table.contacts().contact(record, body).shadow.inner.empty();
    for (const Phase phase : {Phase::kBefore, Phase::kAfter}) {
        if (some) break;
        some = table.ways().of(record, phase).any();
    }
    known = some ? 1 : 0;
    return some;
}

StrokeLowerBound FoldEngine::Impl::lowerBoundOf(BendMask formed, BendMask known, BendId bend, Side hold) {
    const auto [entry, is_new] = lower_bounds_at.try_emplace({formed, known, Stroke{bit(bend), hold}});
    if (is_new) entry->second = findLowerBound(formed, known, bend, hold);
    return entry->second;
}

StrokeLowerBound FoldEngine::Impl::findLowerBound(BendMask formed, BendMask known, BendId bend, Side hold) {
    const Stroke stroke{bit(bend), hold};
    if (!reachesAngle(stroke)) return {false, false, 0, 0};
    StrokeScene scene = scenes.settledScene(formed, stroke, known);
    if (pairs(scene).hit) return {false, false, 0, 0};
    std::erase_if(scene.uses, [&](const GroupUse& use) { return !matters(use.record); });
    const BrakeInSetup& brake = table.machine().brake();
    if (brake->overhang_left && brake->overhang_right)
        scene.extent = {};  // how far the part reaches out does not count
    std::vector<Micron> key{static_cast<Micron>(bend.value), static_cast<Micron>(hold), scene.extent.lo,
                            scene.extent.hi};
    for (const GroupUse& use : scene.uses) key.insert(key.end(), {static_cast<Micron>(use.record), use.shift_um});
    const auto found = lower_bounds.find(key);
    if (found != lower_bounds.end()) return found->second;
    return lower_bounds.emplace(std::move(key), Least(*this, std::move(scene)).run()).first->second;
}

Micron FoldEngine::Impl::mustCover_um(BendId bend) const {
    const Micron end = micronFloor(table.limits().uncovered_end_mm);
    Micron length = 0;
    for (const StripSpan& span : table.bodies().part().bend(bend).spans) {
        const Micron must = micronFloor(span.length_mm()) - 2 * end;
        if (must > micronFloor(table.limits().bar_gap_mm)) length += must;  // else a gap does
    }
    return length;
}

StrokeLowerBound FoldEngine::lowerBound(BendMask formed, BendMask known, const Stroke& stroke) {
    StrokeLowerBound lower_bound{true, true, 1, 0};
    Micron all_um = 0;
    Micron widest_um = 0;
    for (const BendId bend : bendsIn(stroke.bends)) {
        // How a bend is held in company hangs on the state, but for the first.
        StrokeLowerBound one{false, false, std::numeric_limits<int>::max(), 0};
        for (const Side held : kBothSides) {
            if (bend == stroke.first() && held != stroke.hold) continue;
            const StrokeLowerBound way = impl_->lowerBoundOf(formed, known, bend, held);
            if (way.possible)
                one = {true, one.plain || way.plain, std::min(one.pieces, way.pieces),
                       std::max(one.widest_um, way.widest_um)};
        }
        if (!one.possible) return {false, false, 0, 0};
        lower_bound.plain = lower_bound.plain && one.plain;
        if (one.pieces > lower_bound.pieces || lower_bound.widest_um == 0)
            lower_bound = {true, lower_bound.plain, one.pieces, one.widest_um};
        all_um += impl_->mustCover_um(bend);
        widest_um = std::max(widest_um, one.widest_um);
    }
    if (std::has_single_bit(stroke.bends)) return lower_bound;
    // One string covers all of them: none of its bars is wider than the widest that may stand on any.
    const int pieces = fewestBars(impl_->table.machine(), impl_->table.limits(), all_um, false,
                                  std::vector<Micron>(impl_->table.machine().families().size(), widest_um));
    if (pieces == 0) return {false, false, 0, 0};
    if (pieces > lower_bound.pieces) lower_bound = {true, lower_bound.plain, pieces, widest_um};
    return lower_bound;
}

}  // namespace tinwright
