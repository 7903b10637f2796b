// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/used_vees.h"

#include <tinwright/forming/metal/vee_choice.h>

namespace tinwright::app {

void useVee(Shop& shop, std::size_t brake, const std::optional<Vee>& vee) {
    Brake& used = shop.brakes[brake];
    if (vee && used.isPress() && !used.press->vee) used = usingVee(used, *vee);
}

void useVeeAsDrawn(const Part& part, Shop& shop, std::size_t brake, PlanOptions options) {
    if (!shop.brakes[brake].isPress()) return;
    options.verdict_only = true;
    options.tell_reasons = false;
    useVee(shop, brake, planOnBrake(part, shop, brake, options).vee);
}

void useUsualVees(Inputs& inputs) {
    for (const std::size_t brake : inputs.brakes) {
        Brake& used = inputs.shop.brakes[brake];
        if (used.isPress()) used = inEachVee(inputs.part, used).front();
    }
}

}  // namespace tinwright::app
