// SPDX-License-Identifier: GPL-3.0-or-later
// Which bends are to conflict set for an impossible stroke: FoldEngine::conflict set.
//
// More bodies only ever add contacts (points kept under an end relief are left out here, since they may move), so what
// is impossible with some of the part is impossible with all of it. A group of the part lies as the bends on its path
// say. So if a stroke is impossible with those groups alone whose paths lie in a set K of bends, it is impossible in
// every state that agrees on K. K is made small by leaving bends out, and then by trying those that are left the other
// way round: where the stroke is impossible both ways, the bend does not matter.
#include <algorithm>
#include <bit>

#include <tinwright/brake/machines/brake_in_setup.h>

#include "engine/fold_engine_impl.h"

namespace tinwright {

namespace {

class ConflictSet {
public:
    ConflictSet(FoldEngine::Impl& engine, BendMask formed, const Stroke& stroke)
        : engine_(engine), formed_(formed), stroke_(stroke), scene_(engine.scenes.scene(formed, stroke)) {}

    ForbiddenStroke run() {
        if (const auto hem = engine_.noHem(stroke_)) return overHem(*hem);
        if (const auto angle = overAngle()) return *angle;
        if (const auto one = oneOfThem()) return *one;
        ForbiddenStroke result = exact();
        if (!enoughSheet(*scene_)) return result;
        if (isTrapped()) {
            result.mask |= neededForNoGood();
            result.formed = formed_ & result.mask;
            return result;
        }
        if (!impossible(formed_, everyBend())) {  // but for points under an end relief, which more of the part may
                                                  // move: of this very state
            const BendMask others = allFormed(engine_.table.bodies().part()) & ~stroke_.bends;
            return {stroke_, false, others, formed_ & others, 0};
        }
        result.any_company = std::has_single_bit(stroke_.bends);
        result.mask |= needed();
        result.not_with = turnable(result.mask) & ~stroke_.bends;
        result.mask &= ~result.not_with;
        result.formed = formed_ & result.mask;
        return result;
    }

private:
    /// This very stroke, as far as its bends' line goes.
    [[nodiscard]] ForbiddenStroke exact() const {
        const BendMask line = engine_.scenes.between(stroke_.bends);
        return {stroke_, false, line, formed_ & line, 0};
    }

    [[nodiscard]] ForbiddenStroke overHem(BendId bend) const {
        const auto own = std::find_if(scene_->bends.begin(), scene_->bends.end(),
                                      [&](const StrokeBend& one) { return one.bend == bend; });
        return {bit(bend), own->hold, true, 0, 0, 0};
    }

    [[nodiscard]] std::optional<ForbiddenStroke> overAngle() const {
        for (const StrokeBend& bend : scene_->bends) {
            const Stroke alone{bit(bend.bend), bend.hold};
            if (!engine_.reachesAngle(alone)) return ForbiddenStroke{bit(bend.bend), bend.hold, true, 0, 0, 0};
        }
        return std::nullopt;
    }

    /// A bend that is impossible alone, for reasons that its company does not change.
    [[nodiscard]] std::optional<ForbiddenStroke> oneOfThem() const {
        if (std::has_single_bit(stroke_.bends)) return std::nullopt;
        for (const StrokeBend& bend : scene_->bends) {
            const Stroke alone{bit(bend.bend), bend.hold};
            if (engine_.check(formed_, alone).answer != StrokeAnswer::kImpossible) continue;
            const ForbiddenStroke one = ConflictSet(engine_, formed_, alone).run();
            if (one.any_company && one.means(stroke_.bends)) return one;
        }
        return std::nullopt;
    }

    [[nodiscard]] BendMask bendsOf(const GroupUse& use) const { return engine_.bendsOf(*scene_, use); }
    [[nodiscard]] StrokeScene settledBy(BendMask formed, BendMask known) const {
        return engine_.settledBy(*engine_.scenes.scene(formed, stroke_), known);
    }

    [[nodiscard]] bool impossible(BendMask formed, BendMask known) const {
        const StrokeScene scene = settledBy(formed, known);
        if (engine_.pairs(scene).hit) return true;
        // What is caught on straight ways may have another: that it has none is asked by trapped().
        const PlaceAnswer answer = engine_.placer.place(FoldEngine::Impl::askGrowing(scene));
        return !answer.placed && answer.why != NoPlace::kTrapped && !answer.cut_short;
    }

    [[nodiscard]] bool isTrapped() const { return !engine_.pairs(*scene_).hit && trapped(everyBend()); }

    [[nodiscard]] bool trapped(BendMask known) const {
        const StrokeScene scene = settledBy(formed_, known);
        const PlaceAnswer answer = engine_.placer.place(engine_.ask(scene, Certainty::kInner));
        return !answer.placed && answer.why == NoPlace::kTrapped && !answer.cut_short;
    }

    [[nodiscard]] BendMask everyBend() const {
        BendMask every = 0;
        for (const GroupUse& use : scene_->uses) every |= bendsOf(use);
        return every;
    }

    [[nodiscard]] BendMask neededForNoGood() const {
        BendMask known = everyBend();
        BendMask left = 0;
        for (const BendMask one : farFirst(known & ~engine_.scenes.between(stroke_.bends))) {
            if (std::popcount(left) == kMostLeft) break;
            if (!meetsNothing(left | one) || !trapped(known & ~one)) continue;
            known &= ~one;
            left |= one;
        }
        return known;
    }

    /// Whatever the state of these bends, nothing whose place depends on them comes near anything of the machine.
    [[nodiscard]] bool meetsNothing(BendMask left) const {
        const BrakeInSetup& brake = engine_.table.machine().brake();
        if (!brake->overhang_left || !brake->overhang_right) return false;  // how far the part reaches out counts too
        for (BendMask ways = left;; ways = (ways - 1) & left) {
            const auto scene = engine_.scenes.scene((formed_ & ~left) | ways, stroke_);
            for (const GroupUse& use : scene->uses) {
                if ((bendsOf(use) & left) != 0 && meetsSomething(use)) return false;
            }
            if (ways == 0) return true;
        }
    }

    [[nodiscard]] bool meetsSomething(const GroupUse& use) const {
        for (std::size_t body = 0; body < engine_.table.machine().bodies().size(); ++body) {
            const BodyContact& contact = engine_.table.contacts().contactAndNear(use.record, body);
            if (!contact.shadow.outer.empty() || !contact.shadow.inner.empty() || !contact.near.empty()) return true;
        }
        return false;
    }

    /// A set K with nothing to leave out.
    [[nodiscard]] BendMask needed() const {
        BendMask known = startingWith();
        for (const BendMask one : farFirst(known)) {
            if (impossible(formed_, known & ~one)) known &= ~one;
        }
        return known;
    }

    /// Two groups that meet, if any do; else those that stand in some way.
    [[nodiscard]] BendMask startingWith() const {
        BendMask touching = 0;
        std::optional<BendMask> fewest;
        const auto offer = [&](BendMask bends) {
            if (!fewest || std::popcount(bends) < std::popcount(*fewest)) fewest = bends;
        };
        for (const GroupUse& use : scene_->uses) {
            const BendMask bends = bendsOf(use);
            if (standsInSomeWay(use)) touching |= bends;
            for (const StrokeBend& bend : scene_->bends) {
                const Micron shift = bend.shift_um - use.shift_um;
                if (engine_.table.strips().contact(bend.bend, bend.hold, use.record, shift) == StripContact::kHit)
                    offer(bends);
            }
            if (!use.moving) continue;
            for (const GroupUse& held : scene_->uses) {
                if (held.moving || !engine_.couldMeet(use, held, 0)) continue;
                if (engine_.table.pairs().of(use.record, held.record, use.shift_um - held.shift_um).verdict.hit)
                    offer(bends | bendsOf(held));
            }
        }
        if (fewest) return *fewest;
        return impossible(formed_, touching) ? touching : everyBend();
    }

    [[nodiscard]] bool standsInSomeWay(const GroupUse& use) const {
        for (std::size_t body = 0; body < engine_.table.machine().bodies().size(); ++body) {
            if (!engine_.table.contacts().contact(use.record, body).shadow.inner.empty()) return true;
        }
        for (const Phase phase : {Phase::kBefore, Phase::kAfter}) {
            if (engine_.table.ways().of(use.record, phase).any()) return true;
        }
        return false;
    }

    /// The bends of a set, those with most bends between them and this fold first.
    [[nodiscard]] std::vector<BendMask> farFirst(BendMask bends) const {
        std::vector<std::pair<int, BendMask>> order;
        for (BendMask rest = bends; rest != 0; rest &= rest - 1) {
            const BendMask one = rest & -rest;
            int nearest = static_cast<int>(kMaxBends);
            for (const GroupUse& use : scene_->uses) {
                const BendMask path = bendsOf(use);
                if ((path & one) != 0) nearest = std::min(nearest, std::popcount(path));
            }
            order.emplace_back(-nearest, one);
        }
        std::sort(order.begin(), order.end());
        std::vector<BendMask> result;
        for (const auto& [distance, one] : order) result.push_back(one);
        return result;
    }

    /// Bends with which the stroke is impossible formed and unformed, all ways round at once. Not those that lie
    /// between the bends of this stroke: they settle what it is.
    [[nodiscard]] BendMask turnable(BendMask mask) const {
        const BendMask line = engine_.scenes.between(stroke_.bends);
        const BendMask known = mask;
        BendMask turned = 0;
        for (const BendMask one : farFirst(known & ~line)) {
            if (std::popcount(turned) == kMostTurned) break;
            bool all = true;
            for (BendMask ways = turned;; ways = (ways - 1) & turned) {
                all = all && impossible((formed_ ^ one) ^ ways, known);
                if (!all || ways == 0) break;
            }
            if (all) turned |= one;
        }
        return turned;
    }

    static constexpr int kMostTurned = 3;
    static constexpr int kMostLeft = 6;

    FoldEngine::Impl& engine_;
    BendMask formed_;
    Stroke stroke_;
    std::shared_ptr<const StrokeScene> scene_;
};

}  // namespace

BendMask FoldEngine::Impl::bendsOf(const StrokeScene& scene, const GroupUse& use) const {
    const PartBodies& bodies = table.bodies();
    const BendId anchor = table.at(use.record).bend;
    const auto bend =
        std::find_if(scene.bends.begin(), scene.bends.end(), [&](const StrokeBend& one) { return one.bend == anchor; });
    const Group& group = bodies.groups()[table.at(use.record).group];
    BendMask mask = bodies.path(heldPanel(bodies.part().bend(anchor), bend->hold), group.frame);
    if (group.is_strip) mask |= bit(group.bend);
    for (const StrokeBend& one : scene.bends) mask &= ~bit(one.bend);
    return mask;
}

StrokeScene FoldEngine::Impl::settledBy(StrokeScene scene, BendMask known) const {
    std::erase_if(scene.uses, [&](const GroupUse& use) { return (bendsOf(scene, use) & ~known) != 0; });
    scene.extent = {scene.needs.front().lo, scene.needs.back().hi};
    for (const GroupUse& use : scene.uses) {
        const GroupRecord& contact = table.at(use.record);
        scene.extent.lo = std::min(scene.extent.lo, micronFloor(contact.x_lo_mm) + use.shift_um);
        scene.extent.hi = std::max(scene.extent.hi, micronCeil(contact.x_hi_mm) + use.shift_um);
    }
    return scene;
}

ForbiddenStroke FoldEngine::conflictSet(BendMask formed, const Stroke& stroke) {
    if (impl_->demand == Demand::kPossible) return ConflictSet(*impl_, formed, stroke).run();
    // What holds over the tolerances hangs on how far every group may lie off, so on all bends.
    const BendMask others = allFormed(impl_->table.bodies().part()) & ~stroke.bends;
    return {stroke, false, others, formed & others, 0};
}

std::optional<ForbiddenStroke> FoldEngine::conflictSetOfLine(BendMask formed, const Stroke& stroke) {
    const auto apart = impl_->scenes.keptApart(formed, stroke);
    if (!apart) return std::nullopt;
    return ForbiddenStroke{stroke, false, apart->by, formed & apart->by, 0};
}

}  // namespace tinwright
