// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>
#include <functional>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/forming/metal/press_bend.h>
#include <tinwright/geometry/polygons.h>

#include "checks/checks.h"
#include "measures/planned_room.h"
#include "measures/steps.h"
#include "metal/press_vee.h"
#include "rules/wording.h"

namespace tinwright::forming {

namespace {

constexpr double kFlangeRounding_mm = 1e-6;

/// Flat sheet beside a bend in a V: what the chart wants, and with what plans make it.
struct LeastFlat {
    double chart_mm = 0;
    double planned_mm = 0;
    [[nodiscard]] double wanted_mm() const { return std::max(chart_mm, planned_mm); }
};

LeastFlat leastFlat(const Part& part, const Shop& shop, const BrakeInSetup& brake, const Bend& bend, const Vee& vee) {
    const double chart_mm = pressLeastFlat_mm(vee, bend.angle, bend.inside_radius_mm, part.thickness_mm);
    return {chart_mm, plannedFlat_mm(part, bend, shop, brake, vee).value_or(chart_mm)};
}

/// Where the two differ: "; the chart wants 8.4 mm, plans 8.3 mm, with which it just bears on the shoulder ...".
std::string bothWords(const LeastFlat& least, double besides_mm) {
    const std::string chart = roundedUp(least.chart_mm + besides_mm),
                      planned = roundedUp(least.planned_mm + besides_mm);
    if (chart == planned) return {};
    return fmt::format(
        " (0.7 V by the chart is {} mm, plans take {} mm, with which it just bears on the shoulder to the "
        "end of the stroke)",
        chart, planned);
}

/// Past another bend of the panel, beside this one, the sheet goes on until that one is made: those two are looked at
/// together.
bool endsAtBend(const Part& part, BendId id, const Leg& leg) {
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        const BendId other = idAt<BendId>(i);
        const Bend& bend = part.bends[i];
        if (other == id || (bend.parent != leg.panel && bend.child != leg.panel)) continue;
        if (flatBetween_mm(part, id, other) || flatBetween_mm(part, other, id)) return true;
    }
    return false;
}

void addShort(const Part& part, const Shop& shop, const BrakeInSetup& brake, const Vee& vee, BendId id, const Leg& leg,
              std::vector<Finding>& findings) {
    const Bend& bend = part.bend(id);
    const double flat_mm = leg.depth_mm - leg.strip_mm;
    const double outside = outside_mm(part, bend, leg);
    const LeastFlat least = leastFlat(part, shop, brake, bend, vee);
    const double wanted_mm = outside - flat_mm + least.wanted_mm();
    Finding finding = startFinding("flange.vee", Severity::kWarning, part.panel(leg.panel).name, {id});
    finding.figures = {{"flange_mm", outside, wanted_mm},
                       {"chart_flange_mm", outside, outside - flat_mm + least.chart_mm},
                       {"planned_flange_mm", outside, outside - flat_mm + least.planned_mm}};
    finding.words = fmt::format("{} is {} mm outside at bend {}, under {} mm: it slips off the shoulder of a V of {}{}",
                                finding.feature, millimetres(outside), bend.name, roundedUp(wanted_mm),
                                millimetres(vee.opening_mm), bothWords(least, outside - flat_mm));
    const auto will_do = [&](const Vee& narrower) {
        return flat_mm >= leastFlat(part, shop, brake, bend, narrower).wanted_mm() - kFlangeRounding_mm;
    };
    if (const auto narrower = narrowerVee(*brake, vee, part.thickness_mm, will_do))
        finding.remedies.push_back(fmt::format("a V of {}", millimetres(narrower->opening_mm)));
    finding.remedies.push_back(
        fmt::format("{} mm outside or more, trimmed after folding if it must be short", roundedUp(wanted_mm)));
    findings.push_back(std::move(finding));
}

/// How far a point of a die, so far out from the middle of its V and so far down from its top, keeps something away.
using KeepsAway = std::function<double(double out_mm, double down_mm)>;

// Of the outline between two heights; a curve is followed in steps.
double mostKeptAway_mm(const Polygon& profile, double low_mm, double high_mm, bool mirrored, const KeepsAway& keeps) {
    if (low_mm >= high_mm) return 0;
    constexpr int kSteps = 16;
    const Box all = boxOf(profile);
    const Polygon band = rectangle(all.min().x(), all.max().x(), low_mm, high_mm);
    double most_mm = 0;
    for (const Region& piece : intersection({profile, {}}, band)) {
        for (std::size_t i = 0; i < piece.outline.size(); ++i) {
            const Vec2& a = piece.outline[i];
            const Vec2& b = piece.outline[(i + 1) % piece.outline.size()];
            for (int k = 0; k < kSteps; ++k) {
                const Vec2 at = a + (b - a) * k / kSteps;
                most_mm = std::max(most_mm, keeps(mirrored ? -at.x() : at.x(), std::max(0.0, -at.y())));
            }
        }
    }
    return most_mm;
}

/// Of the slimmest die there is, on its slimmer side, within `depth_mm` under its top.
double keptAway_mm(const BrakeInSetup& brake, double depth_mm, double curved_mm, const KeepsAway& keeps) {
    double least = HUGE_VAL;
    std::vector<const Polygon*> looked_at;  // dies of many widths have one profile
    for (const ToolId id : brake.tools(ToolRow::kLower)) {
        const Die& die = *brake->die(id);
        const auto isSame = [&](const Polygon* other) { return *other == die.profile; };
        if (std::any_of(looked_at.begin(), looked_at.end(), isSame)) continue;
        looked_at.push_back(&die.profile);
        for (const bool mirrored : {false, true}) {
            const double top_mm = std::min(depth_mm, curved_mm);
            least = std::min(least, std::max(mostKeptAway_mm(die.profile, -top_mm, 1, mirrored, keeps),
                                             mostKeptAway_mm(die.profile, -depth_mm, -top_mm, mirrored, keeps)));
        }
    }
    return least;
}

/// Room for the die beside one bend of a Z when the other is made: the flange of that one hangs down from the sheet on
/// the die, with which it is joined by an arc that the die's top must clear too.
struct DieRoom {
    double there_mm = 0;    ///< from the bend line to the hanging flange
    double wanted_mm = 0;   ///< to the slimmest die, and the shop's clearance
    double planned_mm = 0;  ///< with which plans make it: flange and arc just pass the die
    [[nodiscard]] double lack_mm() const { return std::max(wanted_mm, planned_mm) - there_mm; }
};

DieRoom roomFor(const Part& part, const Shop& shop, const BrakeInSetup& brake, const Bend& made, BendId hangs,
                double flat_mm) {
    const Bend& hanging = part.bend(hangs);
    const Leg child = legOf(part, hangs, Side::kChild);
    const Leg parent = legOf(part, hangs, Side::kParent);
    const Leg& flange = made.parent == child.panel || made.child == child.panel ? parent : child;
    const double radius_mm = hanging.hem ? hanging.inside_radius_mm : brake.inside_radius_mm();
    const double depth_mm = flange.depth_mm - flange.strip_mm + radius_mm;
    // From where the flat ends the inside of the arc is this much further out, so far down; contact let pass.
    const auto past_flat_mm = [&](double down_mm) {
        const double under_mm = std::max(0.0, radius_mm - down_mm);
        const double reach_mm = radius_mm + kPlannedContact_mm;
        return std::sqrt(reach_mm * reach_mm - under_mm * under_mm);
    };
    const double die_mm = keptAway_mm(brake, depth_mm, radius_mm, [](double out_mm, double) { return out_mm; });
    const double flat_end_mm = keptAway_mm(
        brake, depth_mm, radius_mm, [&](double out_mm, double down_mm) { return out_mm - past_flat_mm(down_mm); });
    return {0.5 * made.allowance_mm + flat_mm + radius_mm, die_mm + shop.limits.clearance_mm, flat_end_mm + radius_mm};
}

Finding nearFinding(const Part& part, BendId a, BendId b) {
    return startFinding("bend.vee", Severity::kWarning, part.bend(a).name + "/" + part.bend(b).name,
                        {std::min(a, b), std::max(a, b)});
}

/// A Z: in one of the two orders the flange that is there must hang clear of the die.
bool addSmallStep(const Part& part, const Shop& shop, const BrakeInSetup& brake, BendId a, BendId b, double flat_mm,
                  std::vector<Finding>& findings) {
    const DieRoom first = roomFor(part, shop, brake, part.bend(a), b, flat_mm);
    const DieRoom second = roomFor(part, shop, brake, part.bend(b), a, flat_mm);
    const DieRoom& room = second.lack_mm() < first.lack_mm() ? second : first;
    if (room.lack_mm() <= kFlangeRounding_mm) return false;
    const double step_mm = flat_mm + part.bend(a).inside_radius_mm + part.bend(b).inside_radius_mm + part.thickness_mm;
    Finding finding = nearFinding(part, a, b);
    finding.figures = {{"room_mm", room.there_mm, room.wanted_mm}, {"planned_room_mm", room.there_mm, room.planned_mm}};
    finding.words = fmt::format(
        "the step of {} mm between these two bends is too small for the die: the first flange hangs {} mm from the "
        "line of the second, and beside the slimmest die it wants {} mm with the clearance of the shop; plans take a "
        "step of {} mm, where flange and arc just pass the die",
        millimetres(step_mm), millimetres(room.there_mm), roundedUp(room.wanted_mm),
        roundedUp(step_mm + room.planned_mm - room.there_mm));
    finding.remedies = {fmt::format("a step of {} mm or more from a face of the sheet to the same face",
                                    roundedUp(step_mm + room.lack_mm())),
                        "a slimmer die, or tools that make both bends in one stroke"};
    findings.push_back(std::move(finding));
    return true;
}

void addLittleFlat(const Part& part, const Shop& shop, const BrakeInSetup& brake, BendId a, BendId b, double flat_mm,
                   std::vector<Finding>& findings) {
    const Vee& vee = *brake.vee();
    const auto least = [&](const Vee& with) {
        const LeastFlat first = leastFlat(part, shop, brake, part.bend(a), with);
        const LeastFlat second = leastFlat(part, shop, brake, part.bend(b), with);
        return LeastFlat{std::min(first.chart_mm, second.chart_mm), std::min(first.planned_mm, second.planned_mm)};
    };
    const auto wanted_mm = [&](const Vee& with) { return least(with).wanted_mm(); };
    if (flat_mm >= wanted_mm(vee) - kFlangeRounding_mm) return;
    Finding finding = nearFinding(part, a, b);
    finding.figures = {{"flat_mm", flat_mm, wanted_mm(vee)},
                       {"chart_flat_mm", flat_mm, least(vee).chart_mm},
                       {"planned_flat_mm", flat_mm, least(vee).planned_mm}};
    finding.words = fmt::format(
        "only {} mm of flat lie between these two bends, under {} mm: when the second is made, the sheet slips off the "
        "shoulder of a V of {}{}",
        millimetres(flat_mm), roundedUp(wanted_mm(vee)), millimetres(vee.opening_mm), bothWords(least(vee), 0));
    const auto will_do = [&](const Vee& narrower) { return flat_mm >= wanted_mm(narrower) - kFlangeRounding_mm; };
    if (const auto narrower = narrowerVee(*brake, vee, part.thickness_mm, will_do))
        finding.remedies.push_back(fmt::format("a V of {}", millimetres(narrower->opening_mm)));
    finding.remedies.push_back(fmt::format("{} mm more between them", roundedUp(wanted_mm(vee) - flat_mm)));
    findings.push_back(std::move(finding));
}

}  // namespace

void addVeeFlanges(const Part& part, const Shop& shop, const BrakeInSetup& brake, std::vector<Finding>& findings) {
    const Vee* const vee = brake.vee();
    if (!vee) return;
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        const BendId id = idAt<BendId>(i);
        for (const Side side : {Side::kChild, Side::kParent}) {
            const Leg leg = legOf(part, id, side);
            const bool is_short = leg.depth_mm - leg.strip_mm <
                                  leastFlat(part, shop, brake, part.bend(id), *vee).wanted_mm() - kFlangeRounding_mm;
            if (is_short && !endsAtBend(part, id, leg)) addShort(part, shop, brake, *vee, id, leg, findings);
        }
    }
}

void addVeeNearBends(const Part& part, const Shop& shop, const BrakeInSetup& brake, std::vector<Finding>& findings) {
    const Vee* const vee = brake.vee();
    if (!vee) return;
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        for (std::size_t j = 0; j < part.bends.size(); ++j) {
            const BendId a = idAt<BendId>(i);
            const BendId b = idAt<BendId>(j);
            const auto flat_mm = i == j ? std::nullopt : flatBetween_mm(part, a, b);
            if (!flat_mm) continue;
            const bool opposite = part.bend(a).up != part.bend(b).up;
            if (opposite && addSmallStep(part, shop, brake, a, b, *flat_mm, findings)) continue;
            addLittleFlat(part, shop, brake, a, b, *flat_mm, findings);
        }
    }
}

}  // namespace tinwright::forming
