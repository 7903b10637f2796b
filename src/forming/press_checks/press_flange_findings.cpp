// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/forming/metal/press_bend.h>

#include "checks/checks.h"
#include "measures/steps.h"
#include "metal/press_vee.h"
#include "rules/wording.h"

namespace tinwright::forming {

namespace {

constexpr double kFlangeRounding_mm = 1e-6;

double leastFlat_mm(const Part& part, const Bend& bend, const Vee& vee) {
    return pressLeastFlat_mm(vee, bend.angle, bend.inside_radius_mm, part.thickness_mm);
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

void addShort(const Part& part, const BrakeInSetup& brake, const Vee& vee, BendId id, const Leg& leg,
              std::vector<Finding>& findings) {
    const Bend& bend = part.bend(id);
    const double flat_mm = leg.depth_mm - leg.strip_mm;
    const double outside = outside_mm(part, bend, leg);
    const double wanted_mm = outside - flat_mm + leastFlat_mm(part, bend, vee);
    Finding finding = startFinding("flange.vee", Severity::kWarning, part.panel(leg.panel).name, {id});
    finding.figures = {{"flange_mm", outside, wanted_mm}};
    finding.words = fmt::format("{} is {} mm outside at bend {}, under {} mm: it slips off the shoulder of a V of {}",
                                finding.feature, millimetres(outside), bend.name, roundedUp(wanted_mm),
                                millimetres(vee.opening_mm));
    const auto will_do = [&](const Vee& narrower) {
        return flat_mm >= leastFlat_mm(part, bend, narrower) - kFlangeRounding_mm;
    };
    if (const auto narrower = narrowerVee(*brake, vee, part.thickness_mm, will_do))
        finding.remedies.push_back(fmt::format("a V of {}", millimetres(narrower->opening_mm)));
    finding.remedies.push_back(
        fmt::format("{} mm outside or more, trimmed after folding if it must be short", roundedUp(wanted_mm)));
    findings.push_back(std::move(finding));
}

/// How far the slimmest die there is reaches out from the middle of its V, on its slimmer side, within `depth_mm` under
/// its top.
double dieReach_mm(const BrakeInSetup& brake, double depth_mm) {
    double least = HUGE_VAL;
    std::vector<const Polygon*> looked_at;  // dies of many widths have one profile
    for (const ToolId id : brake.tools(ToolRow::kLower)) {
        const Die& die = *brake->die(id);
        const auto isSame = [&](const Polygon* other) { return *other == die.profile; };
        if (std::any_of(looked_at.begin(), looked_at.end(), isSame)) continue;
        looked_at.push_back(&die.profile);
        const Box all = boxOf(die.profile);
        const Polygon band{
            {all.min().x(), -depth_mm}, {all.max().x(), -depth_mm}, {all.max().x(), 1}, {all.min().x(), 1}};
        double front = 0;
        double back = 0;
        for (const Region& piece : intersection({die.profile, {}}, band)) {
            front = std::max(front, -boxOf(piece.outline).min().x());
            back = std::max(back, boxOf(piece.outline).max().x());
        }
        least = std::min({least, front, back});
    }
    return least;
}

/// Room for the die beside one bend of a Z when the other is made: the flange of that one hangs down from the sheet on
/// the die.
struct DieRoom {
    double there_mm = 0;  ///< from the bend line to the hanging flange
    double wanted_mm = 0;
    [[nodiscard]] double lack_mm() const { return wanted_mm - there_mm; }
};

DieRoom roomFor(const Part& part, const Shop& shop, const BrakeInSetup& brake, const Bend& made, BendId hangs,
                double flat_mm) {
    const Bend& hanging = part.bend(hangs);
    const Leg child = legOf(part, hangs, Side::kChild);
    const Leg parent = legOf(part, hangs, Side::kParent);
    const Leg& flange = made.parent == child.panel || made.child == child.panel ? parent : child;
    const double depth_mm = flange.depth_mm - flange.strip_mm + hanging.inside_radius_mm;
    return {0.5 * made.allowance_mm + flat_mm + hanging.inside_radius_mm,
            dieReach_mm(brake, depth_mm) + shop.limits.clearance_mm};
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
    finding.figures = {{"room_mm", room.there_mm, room.wanted_mm}};
    finding.words = fmt::format(
        "the step of {} mm between these two bends is too small for the die: the first flange hangs {} mm from the "
        "line of the second, and the slimmest die wants {} mm",
        millimetres(step_mm), millimetres(room.there_mm), roundedUp(room.wanted_mm));
    finding.remedies = {fmt::format("a step of {} mm or more from a face of the sheet to the same face",
                                    roundedUp(step_mm + room.lack_mm())),
                        "a slimmer die, or tools that make both bends in one stroke"};
    findings.push_back(std::move(finding));
    return true;
}

void addLittleFlat(const Part& part, const BrakeInSetup& brake, const Vee& vee, BendId a, BendId b, double flat_mm,
                   std::vector<Finding>& findings) {
    const auto wanted_mm = [&](const Vee& with) {
        return std::min(leastFlat_mm(part, part.bend(a), with), leastFlat_mm(part, part.bend(b), with));
    };
    if (flat_mm >= wanted_mm(vee) - kFlangeRounding_mm) return;
    Finding finding = nearFinding(part, a, b);
    finding.figures = {{"flat_mm", flat_mm, wanted_mm(vee)}};
    finding.words = fmt::format(
        "only {} mm of flat lie between these two bends, under {} mm: when the second is made, the sheet slips off the "
        "shoulder of a V of {}",
        millimetres(flat_mm), roundedUp(wanted_mm(vee)), millimetres(vee.opening_mm));
    const auto will_do = [&](const Vee& narrower) { return flat_mm >= wanted_mm(narrower) - kFlangeRounding_mm; };
    if (const auto narrower = narrowerVee(*brake, vee, part.thickness_mm, will_do))
        finding.remedies.push_back(fmt::format("a V of {}", millimetres(narrower->opening_mm)));
    finding.remedies.push_back(fmt::format("{} mm more between them", roundedUp(wanted_mm(vee) - flat_mm)));
    findings.push_back(std::move(finding));
}

}  // namespace

void addVeeFlanges(const Part& part, const BrakeInSetup& brake, std::vector<Finding>& findings) {
    const Vee* const vee = brake.vee();
    if (!vee) return;
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        const BendId id = idAt<BendId>(i);
        for (const Side side : {Side::kChild, Side::kParent}) {
            const Leg leg = legOf(part, id, side);
            const bool is_short =
                leg.depth_mm - leg.strip_mm < leastFlat_mm(part, part.bend(id), *vee) - kFlangeRounding_mm;
            if (is_short && !endsAtBend(part, id, leg)) addShort(part, brake, *vee, id, leg, findings);
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
            addLittleFlat(part, brake, *vee, a, b, *flat_mm, findings);
        }
    }
}

}  // namespace tinwright::forming
