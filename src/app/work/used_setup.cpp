// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/used_setup.h"

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/forming/metal/vee_choice.h>

namespace tinwright::app {

BrakeInSetup setupAsDrawn(const Part& part, const Shop& shop, std::size_t brake, PlanOptions options) {
    const std::vector<BrakeInSetup> setups = setupsFor(part, shop.brakes[brake]);
    if (setups.size() == 1) return setups.front();
    options.verdict_only = true;
    options.tell_reasons = false;
    return planOnBrake(part, shop, brake, options).brake;
}

}  // namespace tinwright::app
