// SPDX-License-Identifier: GPL-3.0-or-later
#include "metal/press_vee.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/forming/metal/bending.h>

#include "rules/wording.h"

namespace tinwright::forming {

std::optional<Vee> widerVee(const Brake& brake, const Vee& used, double thickness_mm, const VeeTest& will_do) {
    for (const Vee& vee : veesOf(brake)) {
        const bool wider =
            vee.opening_mm > used.opening_mm && vee.opening_mm <= kMostOfUsual * usualDieOpening_mm(thickness_mm);
        if (wider && will_do(vee)) return vee;
    }
    return std::nullopt;
}

std::optional<Vee> narrowerVee(const Brake& brake, const Vee& used, double thickness_mm, const VeeTest& will_do) {
    std::optional<Vee> widest;
    for (const Vee& vee : veesOf(brake)) {
        const bool narrower = vee.opening_mm < used.opening_mm && vee.opening_mm >= kNarrowestVee_t * thickness_mm;
        if (narrower && will_do(vee)) widest = vee;
    }
    return widest;
}

std::optional<double> roundestTip_mm(const BrakeInSetup& brake) {
    std::optional<double> roundest_mm;
    for (const ToolId tool : brake.tools(ToolRow::kUpper))
        roundest_mm = std::max(roundest_mm.value_or(0), brake->punch(tool)->tip_radius_mm);
    return roundest_mm;
}

double most_kn_per_m(const Brake& brake, ToolId tool) {
    const Punch* punch = brake.punch(tool);
    return punch != nullptr ? punch->max_kn_per_m : brake.die(tool)->max_kn_per_m;
}

std::string radiusWords(const BrakeInSetup& brake, const Vee& vee) {
    const bool bottoming = brake->press().mode == PressMode::kBottoming;
    const bool by_chart = !bottoming && std::abs(brake.inside_radius_mm() - airBendRadius_mm(vee.opening_mm)) < 1e-6;
    return fmt::format("in a V of {} bends get an inside radius of {} mm{}", millimetres(vee.opening_mm),
                       millimetres(brake.inside_radius_mm()),
                       bottoming ? " from the punch's tip" : (by_chart ? " by the chart" : ""));
}

}  // namespace tinwright::forming
