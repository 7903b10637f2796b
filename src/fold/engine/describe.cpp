// SPDX-License-Identifier: GPL-3.0-or-later
// What a possible stroke looks like at the bench: FoldEngine::clearance and FoldEngine::describe.
#include <algorithm>
#include <cmath>
#include <limits>

#include <tinwright/base/contract.h>
#include <tinwright/geometry/planar.h>

#include "contact/packing_room.h"
#include "engine/fold_engine_impl.h"

namespace tinwright {

namespace {

double gapBetween(double lo_a, double hi_a, double lo_b, double hi_b) { return std::max(lo_b - hi_a, lo_a - hi_b); }

// What is nearest so far: a group, and either a bar, another group, or a body of the machine.
struct Nearest {
    double gap_mm = kClearanceCap_mm;
    double at_rad = 0;
    const GroupUse* use = nullptr;
    const GroupUse* other = nullptr;
    std::size_t body = 0;
    std::optional<ToolId> tool;
};

// Margins at which a stretch is tried when the gap in the section alone says nothing (the group's shadow on the body
// lies beside the stretch).
double besideShadow_mm(FoldEngine::Impl& engine, const GroupUse& use, std::size_t body, Interval where) {
    static constexpr double kMargins_mm[] = {5, 3, 2, 1.5, 1, 0.75, 0.5, 0.25, 0.15, 0.1, 0.05, 0.02};
    for (const double margin : kMargins_mm) {
        const Micron reach = micronCeil(margin);
        const Interval wider{where.lo - reach, where.hi + reach};
        if (!engine.table.contacts().nearerThan(use.record, body, margin).shifted(use.shift_um).meets(wider))
            return margin;
    }
    return 0;
}

// Clearance of a group from a body over one stretch of x: what is apart along x need not be apart in the section.
void takeBody(FoldEngine::Impl& engine, const GroupUse& use, std::size_t body, Interval where,
              std::optional<ToolId> bar, Nearest& nearest) {
    const GroupRecord& contact = engine.table.at(use.record);
    const double shift = toMm(use.shift_um);
    const auto beside = [&](double lo, double hi) {
        return gapBetween(lo + shift, hi + shift, toMm(where.lo), toMm(where.hi));
    };
    if (beside(contact.x_lo_mm, contact.x_hi_mm) >= nearest.gap_mm) return;
    const bool both_sides = engine.table.machine().movesBothSides();
    // Where it bears on one half of a driven body, the other half counts.
    const bool bears = both_sides && engine.table.machine().bodies()[body].driven;
    if (!bears && engine.table.contacts().isIntended(use.record, body)) return;
    if (engine.table.contacts().groupBeyond(nearest.gap_mm, use.record, body)) return;
    const std::vector<Solid>& solids = engine.table.records().laidOut(use.record).solids;
    for (std::size_t i = 0; i < solids.size(); ++i) {
        const double apart = beside(solids[i].x_lo_mm(), solids[i].x_hi_mm());
        if (apart >= nearest.gap_mm) continue;
        const std::optional<GapBound> lower_bound =
            engine.table.contacts().gapUnder(nearest.gap_mm, use.record, body, i);
        if (!lower_bound) continue;
        double gap = std::max(lower_bound->gap_mm, apart);
        // Beside a wall that leans or swings past its end a die is placed by that group's shadow: told from the section
        // alone it would be tight.
        const bool ask_beside = gap <= 0 || (both_sides && gap < engine.table.limits().clearance_mm);
        if (ask_beside) gap = std::max({gap, 0.0, besideShadow_mm(engine, use, body, where)});
        if (gap < nearest.gap_mm) nearest = {gap, lower_bound->at_rad, &use, nullptr, body, bar};
    }
}

void takeBars(FoldEngine::Impl& engine, const StrokeScene& scene, const Placed& placed, Nearest& nearest) {
    const Machine& machine = engine.table.machine();
    for (const GroupUse& use : scene.uses) {
        for (const StandingTool& bar : placed.bars) {
            const ToolFamily& family = machine.families()[machine.familyOf(bar.tool)];
            takeBody(engine, use, family.high, bar.at, bar.tool, nearest);
            if (family.low < 0) continue;
            const Interval low = family.relief.shortened(bar.at);
            if (!low.empty()) takeBody(engine, use, static_cast<std::size_t>(family.low), low, bar.tool, nearest);
        }
    }
}

void takeMachine(FoldEngine::Impl& engine, const StrokeScene& scene, const Placed& placed, Nearest& nearest) {
    const Machine& machine = engine.table.machine();
    const Interval window{-placed.part_x_um, micronFloor(machine.brake()->length_mm) - placed.part_x_um};
    const std::vector<std::size_t> bodies = machine.longBodies(placed.face);
    for (const GroupUse& use : scene.uses) {
        for (const std::size_t body : bodies) takeBody(engine, use, body, window, std::nullopt, nearest);
    }
}

// They stand at and beyond their inside faces.
void takeSideFrames(FoldEngine::Impl& engine, const StrokeScene& scene, const Placed& placed, Nearest& nearest) {
    const Machine& machine = engine.table.machine();
    if (machine.frames() < 0) return;
    constexpr Micron kBeyond_um = 20'000'000;  // further than any part reaches
    const Micron left = machine.betweenFrames().lo - placed.part_x_um;
    const Micron right = machine.betweenFrames().hi - placed.part_x_um;
    for (const GroupUse& use : scene.uses) {
        for (const Interval frame : {Interval{left - kBeyond_um, left}, Interval{right, right + kBeyond_um}}) {
            takeBody(engine, use, static_cast<std::size_t>(machine.frames()), frame, std::nullopt, nearest);
        }
    }
}

void takePanels(FoldEngine::Impl& engine, const StrokeScene& scene, Nearest& nearest) {
    for (const GroupUse& use : scene.uses) {
        if (!use.moving) continue;
        for (const GroupUse& held : scene.uses) {
            if (held.moving || !engine.couldMeet(use, held, nearest.gap_mm) || engine.joined(scene, use, held))
                continue;
            if (engine.table.drawn().isClose(engine.table.at(use.record).group, engine.table.at(held.record).group))
                continue;
            const auto gap =
                engine.table.pairs().gapUnder(nearest.gap_mm, use.record, held.record, use.shift_um - held.shift_um);
            if (gap && gap->gap_mm < nearest.gap_mm) nearest = {gap->gap_mm, gap->at_rad, &use, &held, 0, std::nullopt};
        }
    }
}

FoldEngine::Clearance clearanceOf(const FoldEngine::Impl& engine, const Nearest& nearest) {
    FoldEngine::Clearance clearance;
    clearance.gap_mm = std::max(0.0, std::floor(nearest.gap_mm * 1000) / 1000);  // still a lower bound
    if (nearest.use == nullptr) return clearance;
    const Machine& machine = engine.table.machine();
    // Where both sides move each does by half of what is bent, against tools; between both sides all of it is counted.
    const bool by_half = machine.movesBothSides() && nearest.other == nullptr;
    clearance.at_deg = Angle::radians(by_half ? 2 * nearest.at_rad : nearest.at_rad).deg();
    clearance.between[0] = engine.bodyOf(nearest.use->record);
    if (nearest.other != nullptr) {
        clearance.between[1] = engine.bodyOf(nearest.other->record);
    } else {
        clearance.between[1] =
            nearest.tool ? machine.bodyOf(*nearest.tool) : BodyRef(machine.bodies()[nearest.body].what);
    }
    return clearance;
}

// A rule needs this much edge to lie against, and this much to scribe from it.
constexpr double kUsableEdge_mm = 10;
constexpr double kUsableDistance_mm = 8;

struct Sight {
    double distance_mm = 0;
    std::string edge;
};

// The nearest straight edge, parallel to the bend, of one of the two panels that the bend joins; else of any panel.
// `strip_back_mm`: from the sight line to where the strip ends on the held side.
Sight sightFrom(const Part& part, const Bend& bend, Side hold, double strip_back_mm) {
    const Vec2 back = towards(bend, hold);
    const Vec2 sight = bend.origin + (0.5 * bend.allowance_mm - strip_back_mm) * back;
    Sight best;
    double best_rank = std::numeric_limits<double>::infinity();
    for (const NamedEdge& edge : part.edges) {
        const Vec2 along = edge.to - edge.from;
        if (std::abs(along.dot(back)) > 1e-6 * along.norm() || along.norm() < kUsableEdge_mm) continue;
        const double distance = std::abs((edge.from - sight).dot(back));
        const bool own = edge.panel == bend.parent || edge.panel == bend.child;
        const double rank = distance + (own ? 0 : 1e6) + (distance < kUsableDistance_mm ? 1e7 : 0);
        if (rank >= best_rank) continue;
        best_rank = rank;
        best = {distance, edge.name};
    }
    return best;
}

std::vector<int> reversed(std::vector<int> order) {
    std::reverse(order.begin(), order.end());
    return order;
}

double overhang_mm(const StrokeScene& scene, Micron part_x, Micron length) {
    const Micron right = scene.extent.hi + part_x - length;
    const Micron left = -(scene.extent.lo + part_x);
    if (right <= 0 && left <= 0) return 0;
    return right >= left ? toMm(right) : -toMm(left);
}

}  // namespace

// Bars first: what is nearest is most often one of them, and then little else need be looked at closely.
FoldEngine::Clearance FoldEngine::clearance(BendMask formed, const Stroke& stroke, const StrokeResult& result) {
    const auto kept = impl_->scenes.scene(formed, stroke);
    const StrokeScene& scene = *kept;
    const Placed placed = impl_->placedOf(result);
    Nearest nearest;
    takeBars(*impl_, scene, placed, nearest);
    takeMachine(*impl_, scene, placed, nearest);
    takeSideFrames(*impl_, scene, placed, nearest);
    takePanels(*impl_, scene, nearest);
    return clearanceOf(*impl_, nearest);
}

namespace {

// To which what swings the sheet is set; nothing on machines that swing nothing.
Angle leafAngle(FoldEngine::Impl& engine, const StrokeScene& scene, std::size_t face) {
    if (engine.table.machine().movesBothSides()) return {};
    double most_rad = 0;
    for (const StrokeBend& bend : scene.bends) {
        const double set_rad = engine.table.geometry().set_rad(bend.bend);
        most_rad = std::max(most_rad, set_rad + engine.table.clamped().lead(bend.bend, bend.hold, face).rad());
    }
    return Angle::radians(most_rad);
}

// Nobody needs strips wider than that to be told how wide they may be.
constexpr double kWideEnough_mm = 50;

std::optional<Packing> packingUnder(FoldEngine::Impl& engine, const StrokeScene& scene, std::size_t packing) {
    if (packing == 0) return std::nullopt;
    const Machine& machine = engine.table.machine();
    const PackingRoom room = packingRoom(engine.table, scene, packing);
    const auto told = [](double width_mm) {
        return width_mm < kWideEnough_mm ? std::optional(std::floor(width_mm * 10) / 10) : std::nullopt;
    };
    const Machine::Packed& packed = machine.packing(packing);
    return Packing{packed.height_mm, packed.on_leaf, -machine.drivenCentre(packing).x(), told(room.on_bed_mm),
                   packed.on_leaf ? told(room.on_leaf_mm) : std::nullopt};
}

}  // namespace

GaugeChoice FoldEngine::gauge(BendMask formed, const Stroke& stroke, const StrokeResult& result,
                              const std::vector<double>& formed_lines_mm) {
    TINWRIGHT_REQUIRE(impl_->table.machine().isGauged(), "the sheet is set by a back gauge on this machine");
    ToleranceBox box = impl_->tolerances.box();
    TINWRIGHT_REQUIRE(formed_lines_mm.empty() || formed_lines_mm.size() == impl_->table.bodies().part().bends.size(),
                      "a line for each bend");
    box.formed_lines_mm = formed_lines_mm;
    return impl_->gauging.choose(*impl_->scenes.scene(formed, stroke), impl_->placedOf(result), box);
}

// By the sheet itself, so that what is as large on either side is so in every state.
bool FoldEngine::holdsLargerSide(BendMask formed, const Stroke& stroke) {
    constexpr double kAlike = 1e-6;  // of the whole: rounding
    const Part& part = impl_->table.bodies().part();
    const auto scene = impl_->scenes.scene(formed, stroke);
    double held_mm2 = 0;
    double other_mm2 = 0;
    for (const GroupUse& use : scene->uses) {
        const Group& group = impl_->table.bodies().groups()[impl_->table.at(use.record).group];
        const Bend* strip = group.is_strip ? &part.bend(group.bend) : nullptr;
        const double sheet_mm2 =
            strip != nullptr ? strip->allowance_mm * stripLength_mm(*strip) : area_mm2(part.panel(group.frame).region);
        (use.moving ? other_mm2 : held_mm2) += sheet_mm2;
    }
    return held_mm2 > other_mm2 + kAlike * (held_mm2 + other_mm2);
}

FoldStep FoldEngine::describeHold(BendMask formed, const Stroke& stroke, const StrokeResult& result) {
    const auto scene = impl_->scenes.scene(formed, stroke);
    const Placed placed = impl_->placedOf(result);
    const Part& part = impl_->table.bodies().part();
    FoldStep step;
    step.stroke = stroke;
    for (const StrokeBend& bend : scene->bends) step.held.push_back(heldPanel(part.bend(bend.bend), bend.hold));
    std::sort(step.held.begin(), step.held.end());
    step.held.erase(std::unique(step.held.begin(), step.held.end()), step.held.end());
    step.part_x_mm = toMm(placed.part_x_um);
    step.leaf_face = impl_->table.machine().faceName(placed.face);
    for (const StandingTool& bar : placed.bars) step.tools.push_back({bar.tool, toMm(bar.at.lo), toMm(bar.at.hi)});
    step.covered_share = impl_->placer.along().coveredShare(*scene, placed.bars);
    return step;
}

FoldStep FoldEngine::describe(BendMask formed, const Stroke& stroke, const StrokeResult& result,
                              const std::vector<double>& formed_lines_mm) {
    const auto kept = impl_->scenes.scene(formed, stroke);
    const StrokeScene& scene = *kept;
    const Placed placed = impl_->placedOf(result);
    const Part& part = impl_->table.bodies().part();
    const Machine& machine = impl_->table.machine();
    const Bend& first = part.bend(stroke.first());
    FoldStep step = describeHold(formed, stroke, result);
    step.drawn_face_up = first.up;
    step.packing = packingUnder(*impl_, scene, result.packing);
    RestShadows before = impl_->placer.atRest(scene, Phase::kBefore);
    RestShadows after = impl_->placer.atRest(scene, Phase::kAfter);
    WayOut in = impl_->placer.wayOut(before, placed, false);
    WayOut out = impl_->placer.wayOut(after, placed, false);
    if (impl_->demand == Demand::kHolds && machine.exits().loose()) {
        in = impl_->tolerances.toldWay(scene, Phase::kBefore, placed, std::move(in));
        out = impl_->tolerances.toldWay(scene, Phase::kAfter, placed, std::move(out));
    }
    if (impl_->tolerances_known) {
        step.over_tolerances = impl_->tolerances.judge(scene, placed, in, out);
    } else {
        step.over_tolerances.looked_at = false;
    }
    step.tools_in = reversed(in.order);
    step.tools_out = out.order;
    step.way_in = in.moves;
    step.way_out = out.moves;
    step.lift_in_mm = in.lift_mm;
    step.lift_out_mm = out.lift_mm;
    step.plain_ways = in.plain && out.plain;
    step.angle = first.angle;
    step.set_angle = Angle::radians(impl_->table.geometry().set_rad(stroke.first()));
    step.leaf_angle = leafAngle(*impl_, scene, placed.face);
    step.depth_mm = machine.rise_mm(0.5 * step.set_angle.rad());
    const Sight sight = sightFrom(part, first, stroke.hold, machine.stripBack_mm(first.allowance_mm));
    step.sight_mm = sight.distance_mm;
    step.sight_from_edge = sight.edge;
    if (machine.isGauged()) {
        GaugeChoice choice = gauge(formed, stroke, result, formed_lines_mm);
        step.gauge_stop = std::move(choice.stop);
        step.gauge_trouble = choice.trouble;
    }
    if (first.hem) step.closing = impl_->closer.close(impl_->placer.along(), scene, placed, Certainty::kOuter);
    const Clearance worst = clearance(formed, stroke, result);
    step.clearance_mm = worst.gap_mm;
    step.clearance_between = worst.between;
    step.clearance_at_deg = worst.at_deg;
    step.overhang_mm = overhang_mm(scene, placed.part_x_um, micronFloor(machine.brake()->length_mm));
    return step;
}

}  // namespace tinwright
