// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>

#include "checks/checks.h"
#include "measures/hole_distance.h"
#include "metal/press_vee.h"
#include "rules/wording.h"

namespace tinwright::forming {

namespace {

// Trade guidance: edge of a round hole V/2 - 1 mm or more from the bend line, of anything else V/2 + 1 mm.
constexpr double kHole_mm = -1;
constexpr double kSlot_mm = 1;

WantedDistance wantedIn(const Vee& vee) {
    return [half_mm = 0.5 * vee.opening_mm](const NamedCutOut& cut_out, double, const Leg& leg) {
        return half_mm + (cut_out.round ? kHole_mm : kSlot_mm) - leg.strip_mm;
    };
}

/// It takes the place where the sheet would bear on the shoulder.
bool takesShoulder(const Vee& vee, const Nearness& near) { return near.box.max().y() > 0.5 * vee.opening_mm; }

std::string effectWords(const NamedCutOut& cut_out, const Vee& vee, const Nearness& near) {
    if (cut_out.round) return "it is pulled oval";
    if (!takesShoulder(vee, near)) return "its edge hangs in the V and bulges";
    return fmt::format("over its {} mm the sheet does not bear on the shoulder, stays behind and bulges",
                       millimetres(near.box.max().x() - near.box.min().x()));
}

Finding findingOf(const Part& part, const Legs& legs, const BrakeInSetup& brake, const Vee& vee, BendId bend,
                  std::size_t cut_out, const Nearness& near) {
    const NamedCutOut& named = part.cut_outs[cut_out];
    Finding finding = startFinding("hole.vee", Severity::kWarning, named.name, {bend});
    finding.figures = {{"distance_mm", near.fromLine_mm(), near.wantedFromLine_mm()}};
    finding.words =
        fmt::format("{} is {} mm from the line of bend {}, wanted {} mm in a V of {}: {}", named.name,
                    millimetres(near.fromLine_mm()), part.bend(bend).name, roundedUp(near.wantedFromLine_mm()),
                    millimetres(vee.opening_mm), effectWords(named, vee, near));
    if (const auto move = moveAway(part, legs, cut_out, near, wantedIn(vee))) finding.remedies.push_back(*move);
    const auto will_do = [&](const Vee& narrower) {
        const auto there = nearness(part, legs[bend.index()], cut_out, wantedIn(narrower));
        return there && !there->isNear();
    };
    if (const auto narrower = narrowerVee(*brake, vee, part.thickness_mm, will_do))
        finding.remedies.push_back(fmt::format("a V of {}", millimetres(narrower->opening_mm)));
    finding.remedies.push_back(named.round ? "drill it after folding" : "cut it after folding");
    return finding;
}

}  // namespace

void addVeeHoles(const Part& part, const BrakeInSetup& brake, std::vector<Finding>& findings) {
    const Vee* const vee = brake.vee();
    if (!vee || part.cut_outs.empty()) return;
    const Legs legs = legsOf(part);
    for (std::size_t cut_out = 0; cut_out < part.cut_outs.size(); ++cut_out) {
        if (part.cut_outs[cut_out].is_notch) continue;  // a notch by a bend's end is its relief
        for (std::size_t i = 0; i < part.bends.size(); ++i) {
            const auto near = nearness(part, legs[i], cut_out, wantedIn(*vee));
            if (!near || !near->isNear() || near->isInBend()) continue;  // in the bend: said for the part
            findings.push_back(findingOf(part, legs, brake, *vee, idAt<BendId>(i), cut_out, *near));
        }
    }
}

}  // namespace tinwright::forming
