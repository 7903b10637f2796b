// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <numbers>
#include <utility>

#include <tinwright/base/contract.h>
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/packing.h>
#include <tinwright/brake/machines/shop.h>

#include "engine/fold_engine_impl.h"

namespace tinwright {

StrokeResult FoldEngine::Impl::resultOf(const Placed& placed, bool tight) const {
    StrokeResult result;
    result.answer = StrokeAnswer::kPossible;
    result.tight = tight;
    result.setup.face = table.machine().plainFaceOf(placed.face);
    result.packing = table.machine().packingOf(placed.face);
    result.part_x_um = placed.part_x_um;
    result.plain_ways = placed.plain_ways;
    for (const StandingTool& bar : placed.bars) {
        result.setup.pieces.push_back({bar.tool, {bar.at.lo + placed.part_x_um, bar.at.hi + placed.part_x_um}});
    }
    return result;
}

StrokeResult impossible(ReasonCode code) {
    StrokeResult result;
    result.code = code;
    return result;
}

namespace {

ReasonCode codeOf(NoPlace why) {
    switch (why) {
        case NoPlace::kTooLittleClamped: return ReasonCode::kTooLittleClamped;
        case NoPlace::kNoBars: return ReasonCode::kNoBars;
        case NoPlace::kTrapped: return ReasonCode::kTrapped;
        case NoPlace::kNotClosed: return ReasonCode::kNotClosed;
        case NoPlace::kNone:
        case NoPlace::kNowhere: break;
    }
    return ReasonCode::kHit;
}

}  // namespace

FoldEngine::FoldEngine(const Part& part, const Shop& shop, const BrakeInSetup& brake, Demand demand,
                       const std::vector<double>& radii_mm)
    : FoldEngine(part, shop, makeMachine(brake, part.thickness_mm, packingHeights_mm(part)), demand, radii_mm) {}

FoldEngine::FoldEngine(const Part& part, const Shop& shop, std::unique_ptr<const Machine> machine, Demand demand,
                       const std::vector<double>& radii_mm)
    : impl_(std::make_unique<Impl>(part, shop, std::move(machine), demand, radii_mm)) {
    TINWRIGHT_REQUIRE(demand == Demand::kPossible || radii_mm.empty(),
                      "of parts that are made on two machines tolerances are not known");
}
FoldEngine::~FoldEngine() = default;

std::vector<BendMask> FoldEngine::lines(BendMask formed) { return impl_->scenes.lines(formed); }
std::vector<ListedStroke> FoldEngine::strokes(BendMask formed, bool& all) { return impl_->scenes.strokes(formed, all); }

bool FoldEngine::Impl::couldMeet(const GroupUse& moving, const GroupUse& held, double margin_mm) const {
    const GroupRecord& a = table.at(moving.record);
    const GroupRecord& b = table.at(held.record);
    const double shift = toMm(moving.shift_um - held.shift_um);
    if (a.x_lo_mm + shift > b.x_hi_mm + margin_mm || b.x_lo_mm > a.x_hi_mm + shift + margin_mm) return false;
    const double reach = margin_mm + a.reach_mm;
    return a.ring.least_mm - reach <= b.ring.most_mm && b.ring.least_mm - reach <= a.ring.most_mm;
}

FoldEngine::Impl::PairAnswer FoldEngine::Impl::pairs(const StrokeScene& scene) {
    PairAnswer answer;
    const double reach = table.limits().clearance_mm;
    for (const GroupUse& moving : scene.uses) {
        if (!moving.moving) continue;
        for (const GroupUse& held : scene.uses) {
            if (held.moving) continue;
            if (!couldMeet(moving, held, reach)) continue;
            const PairContact& contact = table.pairs().of(moving.record, held.record, moving.shift_um - held.shift_um);
            if (contact.verdict.hit) return {true, false, false};
            answer.unclear = answer.unclear || !contact.verdict.clear;
            answer.near =
                answer.near || (contact.near && !joined(scene, moving, held) &&
                                !table.drawn().isClose(table.at(moving.record).group, table.at(held.record).group));
        }
    }
    for (const StrokeBend& bend : scene.bends) {
        for (const GroupUse& use : scene.uses) {
            const StripContact contact =
                table.strips().contact(bend.bend, bend.hold, use.record, bend.shift_um - use.shift_um);
            if (contact == StripContact::kHit) return {true, false, false};
            answer.unclear = answer.unclear || contact == StripContact::kUnclear;
        }
    }
    return answer;
}

// How a bend is held in company hangs on the state, but for the first: then either way must do.
bool FoldEngine::Impl::reachesAngle(const Stroke& stroke) {
    constexpr double kRounding_rad = 1e-9;
    const Machine& machine = table.machine();
    for (const BendId bend : bendsIn(stroke.bends)) {
        const double set_rad = table.geometry().set_rad(bend);
        if (!machine.reaches(set_rad)) return false;
        if (!machine.standsOff(table.geometry().motions(bend), 0)) continue;
        for (const Side hold : kBothSides) {
            if (bend == stroke.first() && hold != stroke.hold) continue;
            if (set_rad + leastLead(bend, hold).rad() > machine.mostAngle_rad() + kRounding_rad) return false;
        }
    }
    return true;
}

// With the face that leads least.
Angle FoldEngine::Impl::leastLead(BendId bend, Side hold) {
    if (!table.machine().standsOff(table.geometry().motions(bend), 0)) return {};
    const auto [entry, is_new] = leads.try_emplace({bend, hold});
    if (!is_new) return entry->second;
    for (std::size_t face = 0; face < table.machine().faceCount(); ++face) {
        const Angle lead = table.clamped().lead(bend, hold, face);
        if (face == 0 || lead.rad() < entry->second.rad()) entry->second = lead;
    }
    return entry->second;
}

AngleLimit FoldEngine::Impl::angleLimit(const Stroke& stroke) const {
    const Machine& machine = table.machine();
    for (const BendId bend : bendsIn(stroke.bends)) {
        const double set_rad = table.geometry().set_rad(bend);
        if (!machine.reaches(set_rad)) return machine.angleLimit(set_rad);
    }
    return machine.angleLimit(std::numbers::pi);
}

std::optional<BendId> FoldEngine::Impl::noHem(const Stroke& stroke) const {
    for (const BendId bend : bendsIn(stroke.bends)) {
        if (closer.whyNot({bend})) return bend;
    }
    return std::nullopt;
}

StrokeResult FoldEngine::Impl::check(BendMask formed, const Stroke& stroke) {
    ++checks;
    return demand == Demand::kHolds ? checkHolding(formed, stroke) : checkPossible(formed, stroke);
}

std::optional<StrokeResult> FoldEngine::Impl::checkWith(BendMask formed, const Stroke& stroke, WaysTried tried) {
    if (noHem(stroke)) return impossible(ReasonCode::kNoHem);
    if (!reachesAngle(stroke)) return impossible(angleLimit(stroke).told_as);
    const auto kept = scenes.scene(formed, stroke);
    const StrokeScene& scene = *kept;
    const PairAnswer between = pairs(scene);
    if (between.hit) return impossible(ReasonCode::kPanelHit);
    const auto leftOpen = [&](const PlaceAnswer& answer) {
        return tried == WaysTried::kStraight && answer.why == NoPlace::kTrapped;
    };
    if (!between.unclear && !between.near) {
        const PlaceAnswer wanted = placer.place(ask(scene, Certainty::kWanted, tried));
        if (wanted.placed) return resultOf(*wanted.placed, false);
        if (leftOpen(wanted)) return std::nullopt;
    }
    bool cut_short = false;
    if (!between.unclear) {
        const PlaceAnswer tight = placer.place(ask(scene, Certainty::kOuter, tried));
        if (tight.placed) return resultOf(*tight.placed, true);
        if (leftOpen(tight)) return std::nullopt;
        cut_short = tight.cut_short;
    }
    const PlaceAnswer perhaps = placer.place(ask(scene, Certainty::kInner, tried));
    if (!perhaps.placed && leftOpen(perhaps)) return std::nullopt;
    StrokeResult result = impossible(codeOf(perhaps.why));
    if (perhaps.placed || cut_short || perhaps.cut_short) result.answer = StrokeAnswer::kUndecided;
    return result;
}

Side FoldEngine::holdOf(BendMask formed, const Stroke& stroke, BendId bend) {
    return impl_->scenes.holdOf(formed, stroke, bend);
}
BendMask FoldEngine::between(BendMask bends) const { return impl_->scenes.between(bends); }

bool FoldEngine::mayShareStroke(BendId a, BendId b) { return a == b || impl_->scenes.mayShareStroke(a, b); }

Eigen::Matrix3d FoldEngine::machineFromBase(BendMask formed, const Stroke& stroke, bool after) const {
    const PartBodies& bodies = impl_->table.bodies();
    const BendId first = stroke.first();
    const Bend& line = bodies.part().bend(first);
    const bool closed = after && line.hem;  // then the parent lies in front, as it does for a fold that holds the child
    const Side hold = closed ? Side::kChild : stroke.hold;
    const PanelId held = heldPanel(line, hold);
    const Rigid frame = impl_->table.geometry().bendFrame(first, hold);
    const BendMask state = after && !closed ? formed | stroke.bends : formed;
    return (frame * bodies.pose(held, idAt<PanelId>(0), state)).linear();
}

BendMask FoldEngine::lieHangsOn(BendId bend, Side hold) const {
    const PartBodies& bodies = impl_->table.bodies();
    return bodies.path(heldPanel(bodies.part().bend(bend), hold), idAt<PanelId>(0));
}

StrokeResult FoldEngine::check(BendMask formed, const Stroke& stroke) { return impl_->check(formed, stroke); }

std::optional<StrokeResult> FoldEngine::checkQuickly(BendMask formed, const Stroke& stroke) {
    if (impl_->demand == Demand::kHolds) return impl_->check(formed, stroke);
    ++impl_->checks;
    return impl_->checkWith(formed, stroke, WaysTried::kStraight);
}

std::vector<std::size_t> FoldEngine::Impl::upperSections(const Machine& machine) {
    const std::vector<ToolFamily>& families = machine.families();
    std::vector<std::size_t> sections;
    for (std::size_t f = 0; f < families.size(); ++f) {
        const bool is_known = std::any_of(sections.begin(), sections.end(), [&](std::size_t other) {
            return families[other].section == families[f].section;
        });
        if (families[f].row == ToolRow::kUpper && !is_known) sections.push_back(f);
    }
    return sections;
}

// Comfortably, or tightly too: `place` is asked for what is wanted first.
template <class Place>
StrokeResult FoldEngine::Impl::checkWhat(BendMask formed, const Stroke& stroke, bool tight_too, Place place) {
    ++checks;
    if (noHem(stroke)) return impossible(ReasonCode::kNoHem);
    if (!reachesAngle(stroke)) return impossible(angleLimit(stroke).told_as);
    const auto kept = scenes.scene(formed, stroke);
    const StrokeScene& scene = *kept;
    const PairAnswer between = pairs(scene);
    if (between.hit || between.unclear) return impossible(ReasonCode::kPanelHit);
    if (demand == Demand::kHolds && !tolerances.membersHold(scene)) return impossible(ReasonCode::kNotHeld);
    if (!between.near) {
        if (const auto placed = place(askDemanded(scene, Certainty::kWanted))) return resultOf(*placed, false);
    }
    if (tight_too) {
        if (const auto placed = place(askDemanded(scene, Certainty::kOuter))) return resultOf(*placed, true);
    }
    return impossible(ReasonCode::kNoBars);
}

StrokeResult FoldEngine::checkWithSetup(BendMask formed, const Stroke& stroke, const Setup& setup, bool tight_too) {
    return impl_->checkWhat(formed, stroke, tight_too,
                            [&](const PlaceQuestion& question) { return impl_->placer.placeAt(question, setup); });
}

std::size_t FoldEngine::sectionCount() const { return impl_->sections.size(); }

bool FoldEngine::isOfSection(const Setup& setup, std::size_t section) const {
    const Machine& machine = impl_->table.machine();
    const ToolFamily& like = machine.families()[impl_->sections[section]];
    return std::all_of(setup.pieces.begin(), setup.pieces.end(), [&](const SetupPiece& piece) {
        const ToolFamily& family = machine.families()[machine.familyOf(piece.tool)];
        return family.row != ToolRow::kUpper || family.section == like.section;
    });
}

StrokeResult FoldEngine::checkWithSection(BendMask formed, const Stroke& stroke, std::size_t section, bool tight_too) {
    return impl_->checkWhat(formed, stroke, tight_too, [&](PlaceQuestion question) {
        question.section = impl_->sections[section];
        question.ways = WaysTried::kStraight;
        return impl_->placer.place(question).placed;
    });
}

Placed FoldEngine::Impl::placedOf(const StrokeResult& result) const {
    Placed placed{table.machine().faceWith(result.packing, result.setup.face), result.part_x_um, {}, result.plain_ways};
    for (const SetupPiece& piece : result.setup.pieces) {
        placed.bars.push_back({piece.tool, {piece.at.lo - result.part_x_um, piece.at.hi - result.part_x_um}});
    }
    return placed;
}

BodyRef FoldEngine::Impl::bodyOf(std::uint32_t record) const {
    return table.bodies().groups()[table.at(record).group].ref();
}

FoldEngine::Work FoldEngine::work() const {
    return {impl_->checks, impl_->table.records().count(), impl_->table.pairs().count()};
}

}  // namespace tinwright
